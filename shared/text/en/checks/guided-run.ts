/**
 * What is said to somebody who stands at a tap while a run is followed: how far it is, and what to
 * do next. Nothing here asks anybody to open a box.
 */
import type { GuidedRunState } from '../../../api/readings.ts';
import { HOUR_S } from '../../../units/duration.ts';
import { formatDuration } from '../format.ts';

export interface GuideText {
  text: string;
  action: string;
}

/**
 * As the guide itself gives up (src/logbook/readings/guided-run.ts): a tank of any size is full by
 * then.
 */
const MAX_RUN_S = HOUR_S;
const STOP_PUMP_TEXT =
  'Look for running water. If every tap is shut, switch the pump off at its breaker and call a pump contractor. Nothing was written down.';

const SHUT_TAP_TEXT =
  'Now shut the tap and draw no water until the pump stops: only then is this the time of a fill.';

export function guideText(run: GuidedRunState): GuideText {
  switch (run.is) {
    case 'no-data':
      return {
        text:
          run.silentS === undefined
            ? 'No current of this pump was ever heard.'
            : `Nothing was heard from the clamp for ${formatDuration(run.silentS)}.`,
        action: 'See whether the node has power and a link. Without it no run can be followed.',
      };
    case 'already-running':
      return {
        text:
          run.ranS === undefined
            ? 'The pump runs already.'
            : `The pump has been running for ${formatDuration(run.ranS)} already.`,
        action:
          (run.ranS ?? 0) > MAX_RUN_S
            ? STOP_PUMP_TEXT
            : 'Shut all taps and wait until it stops. The next start counts.',
      };
    case 'waiting':
      return {
        text: `The pump rests. Waited ${formatDuration(run.waitedS)} so far.`,
        action: 'Open a tap and let it run until the pump starts.',
      };
    case 'running':
      return {
        text: `The pump has been running for ${formatDuration(run.ranS)}${run.long ? ', longer than usual' : ''}.`,
        action: run.long ? `Is a tap still open? ${SHUT_TAP_TEXT}` : SHUT_TAP_TEXT,
      };
    case 'unusable':
      return {
        text:
          run.reason === 'gap'
            ? 'That run had a hole in its readings, so nothing is taken from it.'
            : 'The pump tried to start and did not run. Nothing can be read from that.',
        action:
          run.reason === 'gap'
            ? 'Open a tap again for another run.'
            : 'Do not try again, for each try heats the motor. Switch the pump off at its breaker, leave it off, and call a pump contractor.',
      };
    case 'timed-out':
      return {
        text: TIMED_OUT_TEXT[run.reason],
        action:
          run.reason === 'no-stop' ? STOP_PUMP_TEXT : 'Begin again when you like. Nothing was written down.',
      };
    case 'done':
      return {
        text: `That run took ${formatDuration((Date.parse(run.stopped) - Date.parse(run.started)) / 1000)}.`,
        action: 'Choose below what to keep.',
      };
    default:
      return run satisfies never;
  }
}

const TIMED_OUT_TEXT = {
  'no-data': 'Nothing was heard from the clamp.',
  'no-start': 'The pump did not start in half an hour. Is it switched on, and was a tap open?',
  'no-stop': 'The pump is still running after an hour. With every tap shut that is worth a look of its own.',
} as const;

/** Why a run did not show something. */
export const MISSING_TEXT = {
  'no-sensor': 'not measured: no sensor for it, or its readings lie too far apart',
  'not-reached': 'not reached in this run: pressure levelled off under cut-out',
  'not-by-pressure': 'not of this pump: no pressure switch starts and stops it',
} as const;
