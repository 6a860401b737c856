/** What each watch said last, in words. */
import { expect, it } from 'vitest';
import { evaluationsAnswer } from '../../../src/http/answers/evaluation-answers.ts';
import type { WatchAnswer } from '../../../src/core/alarms/lifecycle/last-evaluations.ts';
import type { WebDeps } from '../../../src/http/deps.ts';

it('says active, clear, or cannot tell and because of what', async () => {
  const evaluations: WatchAnswer[] = [
    { alarm: 'leak', last: 'active' },
    { alarm: 'freeze-risk', last: 'needs-temperature' },
    { alarm: 'amps-low', pump: 'p1', last: 'clear' },
  ];
  const deps = { live: { well: () => Promise.resolve({ evaluations }) } } as unknown as WebDeps;
  expect((await evaluationsAnswer(deps, 'north-paddock')).evaluations).toEqual([
    { alarm: 'leak', is: 'active', text: 'The condition is present.' },
    {
      alarm: 'freeze-risk',
      is: 'cannot-tell',
      because: 'needs-temperature',
      text: 'Cannot tell: air temperature is not measured.',
    },
    { alarm: 'amps-low', pump: 'p1', is: 'clear', text: 'The condition is not present.' },
  ]);
});
