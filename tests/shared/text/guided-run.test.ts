import { expect, test } from 'vitest';
import type { GuidedRunState } from '../../../shared/api/readings.ts';
import { guideText } from '../../../shared/text/en/checks/guided-run.ts';

test.each<[GuidedRunState, string, string]>([
  [{ is: 'no-data' }, 'The clamp has never sent a reading for this pump.', 'node has power'],
  [{ is: 'no-data', silentS: 200 }, 'No reading from the clamp for 3 min 20 s.', 'node has power'],
  [
    { is: 'already-running', ranS: 45 },
    'The pump has already been running for 45 s.',
    'Close all taps and wait',
  ],
  [{ is: 'waiting', waitedS: 30 }, 'The pump is off. Waited 30 s so far.', 'Open a tap'],
  [{ is: 'running', ranS: 40, long: false }, 'The pump has been running for 40 s.', 'Now close the tap'],
  [{ is: 'running', ranS: 400, long: true }, 'longer than usual', 'Is a tap still open?'],
  [{ is: 'unusable', reason: 'gap' }, 'Readings are missing from that run', 'another run'],
  [{ is: 'unusable', reason: 'failed-start' }, 'did not run', 'Do not try again'],
  [{ is: 'timed-out', reason: 'no-start' }, 'did not start within half an hour', 'Start again'],
  [
    { is: 'timed-out', reason: 'no-stop' },
    'still running after an hour',
    'switch the pump off at its breaker and call',
  ],
  [
    { is: 'already-running', ranS: 4000 },
    'already been running for 1 h 7 min',
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
    'The run took 1 min 35 s.',
    'Choose below',
  ],
])('%j', (run, says, toDo) => {
  const words = guideText(run);
  expect(words.text).toContain(says);
  expect(words.action).toContain(toDo);
});
