import { describe, expect, it } from 'vitest';
import { checkAnswers } from '../../../src/http/answers/check-answers.ts';
import type { LiveWell, StoredNode } from '../../../src/http/deps.ts';
import type { Check } from '../../../src/core/alarms/first-hour/first-checks.ts';

const well = (checks: Check[]): LiveWell =>
  ({ checks, sensors: [{ channel: 'current', node: 'barn' }] }) as unknown as LiveWell;
const node = (fedFrom?: string): StoredNode =>
  ({ node: 'barn', approved: true, hello: { ...(fedFrom && { fedFrom }) } }) as unknown as StoredNode;

describe('checkAnswers', () => {
  it('says what to do where it differs, what it waits for where it is not known, and neither where it agrees', () => {
    const answers = checkAnswers(
      well([
        { what: 'cut-in', pump: 'p1', state: 'differs', card: [{ value: 207, dimension: 'pressure' }] },
        { what: 'volts', pump: 'p1', state: 'not-yet' },
        { what: 'legs', pump: 'p1', state: 'agrees' },
      ]),
      [node('battery')],
    );
    expect(
      answers.map(({ what, action, waitingFor }) => [what, action !== undefined, waitingFor !== undefined]),
    ).toEqual([
      ['cut-in', true, false],
      ['volts', false, true],
      ['legs', false, false],
      ['node-supply', false, false],
    ]);
    expect(answers[0]?.card).toEqual([{ value: 207, dimension: 'pressure' }]);
  });

  it.each([
    ['a supply of its own', 'other-circuit', 'agrees'],
    ['the pump’s own circuit', 'pump-circuit', 'differs'],
    ['nothing said', undefined, 'not-yet'],
  ])('a node fed from: %s', (_name, fedFrom, state) => {
    expect(checkAnswers(well([]), [node(fedFrom)])[0]).toMatchObject({ what: 'node-supply', state });
  });

  it('a node that was never heard is not known', () => {
    expect(checkAnswers(well([]), [])[0]?.state).toBe('not-yet');
  });
});
