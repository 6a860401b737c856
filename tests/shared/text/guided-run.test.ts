import { expect, test } from 'vitest';
import type { GuidedRunState } from '../../../shared/api/readings.ts';
import { guideText } from '../../../shared/text/en/checks/guided-run.ts';

test.each<[GuidedRunState, string, string]>([
  [{ is: 'no-data' }, 'No current of this pump was ever heard.', 'node has power'],
  [{ is: 'no-data', silentS: 200 }, 'Nothing was heard from the clamp for 3 min 20 s.', 'node has power'],
  [
    { is: 'already-running', ranS: 45 },
    'The pump has been running for 45 s already.',
    'Shut all taps and wait',
  ],
  [{ is: 'waiting', waitedS: 30 }, 'The pump rests. Waited 30 s so far.', 'Open a tap'],
  [{ is: 'running', ranS: 40, long: false }, 'The pump has been running for 40 s.', 'Now shut the tap'],
  [{ is: 'running', ranS: 400, long: true }, 'longer than usual', 'Is a tap still open?'],
  [{ is: 'unusable', reason: 'gap' }, 'had a hole in its readings', 'another run'],
  [{ is: 'unusable', reason: 'failed-start' }, 'did not run', 'Do not try again'],
  [{ is: 'timed-out', reason: 'no-start' }, 'did not start in half an hour', 'Begin again'],
  [
    { is: 'timed-out', reason: 'no-stop' },
    'still running after an hour',
    'switch the pump off at its breaker and call',
  ],
  [
    { is: 'already-running', ranS: 4000 },
    'for 1 h 7 min already',
    'switch the pump off at its breaker and call',
  ],
  [
    {
      is: 'done',
      started: '2026-05-10T15:00:20Z',
      stopped: '2026-05-10T15:01:55Z',
      readings: [],
      missing: [],
      coarse: false,
    },
    'That run took 1 min 35 s.',
    'Choose below',
  ],
])('%j', (run, says, toDo) => {
  const words = guideText(run);
  expect(words.text).toContain(says);
  expect(words.action).toContain(toDo);
});
