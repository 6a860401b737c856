/**
 * The motor tried and did not run: current as of a start, then nothing, perhaps again and again.
 * One such try alone is not told, since the next may succeed; two within the hour are, and one is
 * when water is still called for and none comes.
 */
import { HOUR_MS } from '../../../../shared/units/duration.ts';
import type { StartShapeFigures } from '../../../../shared/text/en/alarms/pump/failed-start.ts';
import { median } from '../../baseline/robust.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import {
  isAfterReset,
  lastMinute,
  lowestCutInKpa,
  KPA_PER_PSI,
  usesPressure,
  normalAmpsOf,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { isInterruptedStart } from '../electric/interrupted-starts.ts';
import { recordStart, startShape, type StartMemory, type StartShape } from './start-shape.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Two within the hour, as the head of this file says: an overload that has cooled lets the motor
 * try again within minutes (common practice, no source).
 */
const TRY_WINDOW_MS = HOUR_MS;
const MIN_TRIES = 2;
/**
 * A run this short at this many times the usual current is a motor that did not come up to speed.
 * Starting draws six times and more. The overload of a held motor opens within ten seconds; on two
 * lines of three it takes up to 40 s (common practice, no source). Held amps by code letter would
 * need the letter on the card; the ratio serves all letters but the lowest.
 */
const MAX_RUN_S = 45;
const HEAVY_AMPS_RATIO = 1.8;
/**
 * Where pressure rose meanwhile the motor turned (unless another pump raised it), and one or two
 * readings may be of a good start's inrush: there only the full current of a held rotor counts.
 */
const INRUSH_AMPS_RATIO = 3;
const MIN_READINGS = 3;
/**
 * Of the peak of its good starts: over it the whole motor pulled and was held. A main winding alone
 * draws two thirds to 0.8 (common practice, no source).
 */
const LOCKED_ROTOR_RATIO = 0.85;

export const failedStart: Watch<StartMemory> = {
  alarm: 'failed-start',
  scope: 'pump',
  triggers: ['cycle', 'minute'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: StartMemory): Evaluation {
  const usual = referenceAmps(scene);
  if (scene.cycle) recordStart(memory, scene.cycle, isFailedStart(scene.cycle, usual));
  const { cycles, run } = scene.pump;
  const last = cycles[cycles.length - 1];
  if (!last || !isAfterReset(scene, last.startedMs)) return cannotTell('too-few-runs');
  if (!isFailedStart(last, usual)) return CLEAR;
  if (
    run &&
    run.ranS > MAX_RUN_S &&
    (run.amps === undefined || usual === undefined || run.amps < HEAVY_AMPS_RATIO * usual)
  )
    return CLEAR;
  const tries = lastTries(scene, usual);
  if (tries.length === 0) return cannotTell('run-not-comparable');
  if (tries.length < MIN_TRIES && !(scene.trigger === 'minute' && isStillCalledFor(scene)))
    return cannotTell('too-few-runs');
  return finding(scene, tries, usual, startShape(memory, tries, scene.pump.card));
}

/**
 * What a start is held against: the usual current. A drive starts softly and runs at any speed, so
 * there only the motor's maximum is.
 */
function referenceAmps(scene: Scene): number | undefined {
  const { card } = scene.pump;
  return card.control === 'variable-speed' ? card.maxAmps : (normalAmpsOf(scene) ?? card.maxAmps);
}

function isFailedStart(cycle: Cycle, usual: number | undefined): boolean {
  if (cycle.flags.includes('failed-start')) return true;
  if (usual === undefined || cycle.amps === undefined || cycle.ranS >= MAX_RUN_S) return false;
  const mostlyInrush = cycle.riseDelayS !== undefined || cycle.readings < MIN_READINGS;
  return cycle.amps > (mostlyInrush ? INRUSH_AMPS_RATIO : HEAVY_AMPS_RATIO) * usual;
}

/**
 * Failed tries in a row, within the hour before the last one. Contacts that chatter break a start
 * off: that is none.
 */
function lastTries(scene: Scene, usual: number | undefined): Cycle[] {
  const { cycles, run } = scene.pump;
  const found: Cycle[] = [];
  const latestMs = cycles[cycles.length - 1]?.startedMs ?? 0;
  for (let at = cycles.length - 1; at >= 0; at--) {
    const cycle = cycles[at]!;
    if (
      !isFailedStart(cycle, usual) ||
      latestMs - cycle.startedMs > TRY_WINDOW_MS ||
      !isAfterReset(scene, cycle.startedMs)
    )
      break;
    if (!isInterruptedStart(cycle, cycles[at + 1]?.startedMs ?? run?.startedMs)) found.push(cycle);
  }
  return found.reverse();
}

function isStillCalledFor(scene: Scene): boolean {
  const minute = lastMinute(scene);
  const pump = minute?.pumps[scene.pump.index];
  if (!minute || !pump || pump.ranS > 0 || pump.heardS < 40) return false;
  if (pump.callsForWater === true) return true;
  const cutIn = lowestCutInKpa(scene);
  return (
    usesPressure(scene.pump) &&
    cutIn !== undefined &&
    minute.kpa !== undefined &&
    minute.kpa.high < cutIn - KPA_PER_PSI
  );
}

function finding(
  scene: Scene,
  tries: readonly Cycle[],
  usual: number | undefined,
  shape: StartShape,
): Active {
  const last = tries[tries.length - 1]!;
  const peak = Math.max(...tries.map((cycle) => Math.max(cycle.startAmps ?? 0, cycle.amps ?? 0)));
  const everyS = tryIntervalS(tries);
  const figures = {
    ranS: last.ranS,
    ...(peak > 0 && { peakA: peak }),
    ...(usual !== undefined && { normalA: usual }),
    ...shapeFigures(shape),
  };
  return {
    is: 'active',
    sinceMs: tries[0]!.startedMs,
    ...(tries.length < MIN_TRIES
      ? { reason: 'start-failed-water-called-for', figures }
      : {
          reason: 'starts-failed',
          figures: { ...figures, tries: tries.length, ...(everyS !== undefined && { everyS }) },
        }),
    evidence: {
      tries: tries.length,
      ranS: roundTo(last.ranS, 1),
      ...(everyS !== undefined && { everyS: roundTo(everyS, 0) }),
      ...(peak > 0 && { peakAmps: roundTo(peak, 1) }),
      ...(usual !== undefined && { normalAmps: roundTo(usual) }),
      ...(shape.peakRatio !== undefined && { peakShare: roundTo(shape.peakRatio) }),
      ...(shape.codeLetter !== undefined && { codeLetter: shape.codeLetter }),
      ...(shape.startS !== undefined && { startS: roundTo(shape.startS) }),
      ...(shape.normalStartS !== undefined && { usualStartS: roundTo(shape.normalStartS) }),
    },
    causes: causesOf(scene, shape, everyS !== undefined),
  };
}

/** Time from try to try, s, where they come evenly: within a third of their middle. */
function tryIntervalS(tries: readonly Cycle[]): number | undefined {
  const steps = tries.slice(1).map((cycle, at) => (cycle.startedMs - tries[at]!.startedMs) / 1000);
  const middle = median(steps);
  if (middle === undefined || steps.length < 2) return undefined;
  return steps.every((step) => Math.abs(step - middle) <= middle / 3) ? middle : undefined;
}

function shapeFigures({ peakRatio, startS, normalStartS }: StartShape): StartShapeFigures {
  return {
    ...(peakRatio !== undefined && {
      peakRatio,
      peakShows: peakRatio > LOCKED_ROTOR_RATIO ? 'locked-rotor' : 'one-winding',
    }),
    ...(startS !== undefined && normalStartS !== undefined && { startS, normalStartS }),
  };
}

/**
 * Without a record of the start a held rotor and a dead capacitor look alike, and share the weight.
 */
function causesOf(scene: Scene, { peakRatio, startS }: StartShape, even: boolean): Active['causes'] {
  const three = scene.pump.card.phase === 3;
  const lockedOdds = peakRatio === undefined ? 1 : peakRatio > LOCKED_ROTOR_RATIO ? 2 : 0.4;
  const oneWindingOdds = peakRatio === undefined ? 1 : peakRatio > LOCKED_ROTOR_RATIO ? 0.5 : 2;
  const slower = startS === undefined ? 1 : 2;
  return weighCauses({
    'stuck-rotor': (0.35 * lockedOdds) / slower,
    'failing-capacitor': three ? 0.02 : 0.35 * oneWindingOdds * slower,
    'failing-motor': 0.12,
    'overload-tripping': even ? 0.15 : 0.1,
    'lost-leg': three ? 0.3 : 0,
    'supply-voltage': 0.06,
  });
}
