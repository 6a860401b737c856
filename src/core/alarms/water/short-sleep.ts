/**
 * A drive that wakes and sleeps without end, or a valve's pump with its few gallons of tank. Hands
 * that are washed start it a hundred times a day, at all distances; what runs out by itself does so
 * as evenly as a clock. So it takes many starts close together, alike in their rests, for longer
 * than any kitchen is busy; or rests of a few seconds, which no draw makes: then it hunts, or its
 * small tank has lost its air.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import { mad, median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { recentCycles } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * As many runs as are kept, at least two hours of them, no further apart on the mean than a quarter
 * of an hour: a night's length.
 */
const MIN_STARTS = 36;
const MIN_SPAN_S = 2 * HOUR_S;
const MAX_MEAN_PERIOD_S = 900;
/**
 * Rests scatter by less than this share of themselves; people's by more than their mean (arrivals
 * at random scatter by 0.7 of it, as MAD).
 */
const MAX_REST_SCATTER = 0.25;
/**
 * A rest of twice the middle one is a pause: what ran before it had stopped. The rinse of a
 * softener starts a drive forty times in half an hour, and the quiet hours before it add nothing.
 */
const MAX_REST_RATIO = 2;
/** Hunting: so many starts in a row with rests this short. */
const HUNTING_STARTS = 15;
const MAX_HUNTING_REST_S = 5;

/** Clear if the last starts are like people's; cannot tell while there are too few. */
export function shortSleep(scene: Scene): Evaluation {
  const cycles = recentCycles(scene, MIN_STARTS);
  const hunts = cycles.slice(-HUNTING_STARTS);
  const rests = restsS(hunts);
  if (rests.length === HUNTING_STARTS && Math.max(...rests) < MAX_HUNTING_REST_S) return finding(hunts, true);
  if (cycles.length < MIN_STARTS) return cannotTell('too-few-runs');
  const spanS = (cycles[cycles.length - 1]!.startedMs - cycles[0]!.startedMs) / 1000;
  const all = restsS(cycles);
  const restS = median(all) ?? 0;
  const even = all.length >= MIN_STARTS - 1 && (mad(all) ?? 0) < MAX_REST_SCATTER * restS;
  if (!even || spanS > MAX_MEAN_PERIOD_S * MIN_STARTS) return CLEAR;
  return timeWithoutPauseS(cycles, restS) < MIN_SPAN_S
    ? cannotTell('not-long-enough')
    : finding(cycles, false);
}

/** The runs and their rests, without the pauses. */
function timeWithoutPauseS(cycles: readonly Cycle[], restS: number): number {
  const withoutPause = cycles.filter(({ restedS = 0 }) => restedS <= MAX_REST_RATIO * restS);
  return withoutPause.reduce((sum, { ranS, restedS = 0 }) => sum + ranS + restedS, 0);
}

function restsS(cycles: readonly Cycle[]): number[] {
  return cycles.flatMap((cycle) => (cycle.restedS === undefined ? [] : [cycle.restedS]));
}

function finding(cycles: readonly Cycle[], hunts: boolean): Active {
  const inS = (cycles[cycles.length - 1]!.stoppedMs - cycles[0]!.startedMs) / 1000;
  const restedS = median(restsS(cycles)) ?? 0;
  return {
    is: 'active',
    sinceMs: cycles[0]!.startedMs,
    reason: hunts ? 'rests-too-short' : 'rests-too-regular',
    figures: { starts: cycles.length, inS, restS: restedS },
    evidence: { starts: cycles.length, inS: roundTo(inS, 0), restedS: roundTo(restedS, 1) },
    causes: hunts
      ? weighCauses({
          'tank-air-lost': 0.3,
          'bladder-burst': 0.3,
          'switch-chatter': 0.25,
          'check-valve': 0.15,
        })
      : weighCauses({
          // A tank without air spaces the starts more closely, but makes none: something runs out.
          leak: 0.35,
          'open-tap': 0.3,
          'check-valve': 0.12,
          'drop-pipe-leak': 0.11,
          'pitless-leak': 0.12,
        }),
  };
}
