/**
 * Texts for a person at a tap while a run is followed: how far it is, and what to do next. Nothing
 * here asks anybody to open a box.
 */
import type { GuidedRunState } from '../../../api/readings.ts';
import { HOUR_S } from '../../../units/duration.ts';
import { formatDuration } from '../format.ts';

export interface GuideText {
  text: string;
  action: string;
}

/**
 * The time after which the guide gives up (src/logbook/readings/guided-run.ts): by then, a tank of
 * any size is full.
 */
const MAX_RUN_S = HOUR_S;
const STOP_PUMP_TEXT =
  'Look for running water. If all taps are closed, switch the pump off at its breaker and call a pump contractor. Nothing was saved.';

const SHUT_TAP_TEXT =
  'Now close the tap and draw no water until the pump stops. Otherwise the fill time is wrong.';

export function guideText(run: GuidedRunState): GuideText {
  switch (run.is) {
    case 'no-data':
      return {
        text:
          run.silentS === undefined
            ? 'The clamp has never sent a reading for this pump.'
            : `No reading from the clamp for ${formatDuration(run.silentS)}.`,
        action:
          'Check that the node has power and a network connection. Without them no run can be followed.',
      };
    case 'already-running':
      return {
        text:
          run.ranS === undefined
            ? 'The pump is already running.'
            : `The pump has already been running for ${formatDuration(run.ranS)}.`,
        action:
          (run.ranS ?? 0) > MAX_RUN_S
            ? STOP_PUMP_TEXT
            : 'Close all taps and wait until it stops. The guide follows the next run.',
      };
    case 'waiting':
      return {
        text: `The pump is off. Waited ${formatDuration(run.waitedS)} so far.`,
        action: 'Open a tap and let the water run until the pump starts.',
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
            ? 'Readings are missing from that run, so it is not used.'
            : 'The pump tried to start but did not run, so there are no readings.',
        action:
          run.reason === 'gap'
            ? 'Open a tap again for another run.'
            : 'Do not try again: each try heats the motor. Switch the pump off at its breaker, leave it off, and call a pump contractor.',
      };
    case 'timed-out':
      return {
        text: TIMED_OUT_TEXT[run.reason],
        action:
          run.reason === 'no-stop' ? STOP_PUMP_TEXT : 'Start again whenever you like. Nothing was saved.',
      };
    case 'done':
      return {
        text: `The run took ${formatDuration((Date.parse(run.stopped) - Date.parse(run.started)) / 1000)}.`,
        action: 'Choose below which readings to save.',
      };
    default:
      return run satisfies never;
  }
}

const TIMED_OUT_TEXT = {
  'no-data': 'No reading came from the clamp.',
  'no-start': 'The pump did not start within half an hour. Is it switched on, and was a tap open?',
  'no-stop': 'The pump is still running after an hour. If all taps are closed, have that checked.',
} as const;

/** Why a run gave no value for something. */
export const MISSING_TEXT = {
  'no-sensor': 'not measured: no sensor for it, or its readings are too far apart',
  'not-reached': 'not reached in this run: pressure leveled off below cut-out',
  'not-by-pressure': 'not applicable: no pressure switch starts and stops this pump',
} as const;
