import { expect, test } from 'vitest';
import { withCheckReadings } from '../../../src/logbook/readings/check-readings.ts';
import type { Entry } from '../../../shared/entries/entry.ts';

const entry = (kind: Entry['kind'], body: Record<string, unknown>): Entry =>
  ({ id: 'e', well: 'a', kind, atMs: 1, createdMs: 1, by: 'Ines', body }) as Entry;

test.each<[string, Entry, Record<string, unknown> | undefined]>([
  [
    'as it was left',
    entry('check', { check: 'precharge', outcome: 'put-right', value: '25 psi', left: '38 psi' }),
    { what: 'precharge', value: '38 psi' },
  ],
  [
    'as it was found',
    entry('check', { check: 'precharge', outcome: 'right', value: '38 psi' }),
    { what: 'precharge', value: '38 psi' },
  ],
  [
    'a try that failed is none',
    entry('check', { check: 'precharge', outcome: 'not-done', value: '1 psi' }),
    undefined,
  ],
  [
    'another check is none',
    entry('check', { check: 'pressure-gauge', outcome: 'right', value: '0 psi' }),
    undefined,
  ],
  ['a note stays one', entry('note', { text: 'x' }), undefined],
])('a check of the air as a reading: %s', (_, written, body) => {
  const [one] = withCheckReadings([written]);
  expect(one).toEqual(body === undefined ? written : { ...written, kind: 'reading', body });
});
