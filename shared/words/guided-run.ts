/** What is said to somebody who stands at a tap while a run is followed: how far it is, and what to do next. Nothing here asks anybody to open a box. */
import type { RunFollowed } from '../api/readings.ts';
import { sayDuration } from './format.ts';

export interface GuideWords {
  says: string;
  toDo: string;
}

/** As the guide itself gives up (src/book/guided-run.ts): a tank of any size is full by then. */
const LONG_RUN_S = 3600;
const STOP_IT =
  'Look for running water. If every tap is shut, switch the pump off at its breaker and call a pump contractor. Nothing was written down.';

const SHUT = 'Now shut the tap and draw no water until the pump stops: only then is this the time of a fill.';

export function guideWords(run: RunFollowed): GuideWords {
  switch (run.is) {
    case 'unheard':
      return {
        says:
          run.silentS === undefined
            ? 'No current of this pump was ever heard.'
            : `Nothing was heard from the clamp for ${sayDuration(run.silentS)}.`,
        toDo: 'See whether the node has power and a link. Without it no run can be followed.',
      };
    case 'runs-already':
      return {
        says:
          run.ranS === undefined
            ? 'The pump runs already.'
            : `The pump has been running for ${sayDuration(run.ranS)} already.`,
        toDo:
          (run.ranS ?? 0) > LONG_RUN_S
            ? STOP_IT
            : 'Shut all taps and wait until it stops. The next start counts.',
      };
    case 'waiting':
      return {
        says: `The pump rests. Waited ${sayDuration(run.waitedS)} so far.`,
        toDo: 'Open a tap and let it run until the pump starts.',
      };
    case 'running':
      return {
        says: `The pump has been running for ${sayDuration(run.ranS)}${run.long ? ', longer than usual' : ''}.`,
        toDo: run.long ? `Is a tap still open? ${SHUT}` : SHUT,
      };
    case 'unusable':
      return {
        says:
          run.because === 'gap'
            ? 'That run had a hole in its readings, so nothing is taken from it.'
            : 'The pump tried to start and did not run. Nothing can be read from that.',
        toDo:
          run.because === 'gap'
            ? 'Open a tap again for another run.'
            : 'Do not try again, for each try heats the motor. Switch the pump off at its breaker, leave it off, and call a pump contractor.',
      };
    case 'gave-up':
      return {
        says: GAVE_UP[run.because],
        toDo: run.because === 'no-stop' ? STOP_IT : 'Begin again when you like. Nothing was written down.',
      };
    case 'done':
      return {
        says: `That run took ${sayDuration((Date.parse(run.stopped) - Date.parse(run.started)) / 1000)}.`,
        toDo: 'Choose below what to keep.',
      };
    default:
      return run satisfies never;
  }
}

const GAVE_UP = {
  unheard: 'Nothing was heard from the clamp.',
  'no-start': 'The pump did not start in half an hour. Is it switched on, and was a tap open?',
  'no-stop': 'The pump is still running after an hour. With every tap shut that is worth a look of its own.',
} as const;

/** Why a run did not show something. */
export const MISSING_WORDS = {
  'no-sensor': 'not measured: no sensor for it, or its readings lie too far apart',
  'not-reached': 'not reached in this run: pressure levelled off under cut-out',
  'not-by-pressure': 'not of this pump: no pressure switch starts and stops it',
} as const;
