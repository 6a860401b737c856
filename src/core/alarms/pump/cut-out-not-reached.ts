/**
 * The run levels off under cut-out. Two ways to see it: runs that end short of the usual cut-out
 * again and again (something else stopped them), and one run that holds a level near the top of the
 * band for longer than anything here ever took, with less current than the pump usually draws
 * there: little water leaves it, so it is the pump and not a garden.
 */
import { HOUR_S, MINUTE_S } from '../../../../shared/units/duration.ts';
import type { Cycle } from '../../cycles/cycle.ts';
import { isAnnounced, type AnnouncedMemory } from '../announced.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import {
  normalCutInKpa,
  normalCutOutKpa,
  normalFillS,
  hasPressureCycle,
  isAfterReset,
  lastMinutes,
  KPA_PER_PSI,
  runningAmps,
  normalAmpsOf,
} from '../scene-queries.ts';
import { endedBySwitch } from '../water/switch-ended-runs.ts';
import { roundTo } from '../round.ts';
import type { OpenRun, Scene, Watch } from '../scene.ts';
import { unseenKpa } from './unseen-run-end.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * Three of the last four: one short run is a hand at the switch, and one whole run between them
 * does not end the trouble (argued, not measured).
 */
const MIN_SHORT_RUNS = 3;
const WINDOW_RUNS = 4;
/** Ended short: by 2 psi, or four of cut-out's own spreads. */
const SHORT_KPA = 2 * KPA_PER_PSI;
const SPREADS = 4;
/** Ends this close together are one switch's. */
const ALIKE_KPA = 1.5 * KPA_PER_PSI;
/** Under so many seconds, or this share of a fill, whichever is less. */
const MIN_RUN_S = 10;
const MIN_RUN_RATIO = 0.15;
/** A protector's own clock is good to this. */
const WAIT_TOLERANCE = 0.1;
/** A level: the minutes' means lie this close together for so long. */
const LEVEL_MINUTES = 25;
const MAX_LEVEL_RANGE_KPA = 1.2 * KPA_PER_PSI;
/**
 * And so far under cut-out that the switch would not open at any of its ends: they are alike within
 * this (argued, not measured).
 */
const MIN_UNDER_KPA = 1.5 * KPA_PER_PSI;
/** From here up it is near the top of the band. */
const NEAR_TOP_FRACTION = 0.45;
/**
 * Longest that people draw water at one even rate in a house: a pool is filled for 12 h; in the
 * field twice that. Argued, not measured (./long-run.ts).
 */
const MIN_HOUSE_RUN_S = 13 * HOUR_S;
const MIN_FIELD_RUN_S = 26 * HOUR_S;
/** Nor is it a run of three times the longest that was ever seen here (argued, not measured). */
const LONGEST_RUN_MULTIPLE = 3;
/**
 * With current under its usual by this much, or fills that have shown so little delivery, the level
 * is the pump's own, and less time is needed.
 */
const LOW_AMPS_RATIO = 0.96;
const LOW_DELIVERY_RATIO = 0.85;
const MIN_WEAK_S = 40 * MINUTE_S;

export const cutOutNotReached: Watch<AnnouncedMemory> = {
  alarm: 'cut-out-not-reached',
  scope: 'pump',
  triggers: ['minute', 'cycle'],
  initialMemory: () => ({}),
  evaluate,
};

function evaluate(scene: Scene, memory: AnnouncedMemory): Evaluation {
  if (!hasPressureCycle(scene.pump)) return cannotTell('not-this-control');
  if (scene.trigger === 'cycle') return evaluateRun(scene);
  // A constant-pressure valve holds a level by design, and throttles the current with it.
  return scene.pump.card.control === 'constant-pressure-valve'
    ? cannotTell('not-this-control')
    : evaluateRunning(scene, memory);
}

function evaluateRun(scene: Scene): Evaluation {
  const { cycle } = scene;
  const cutOut = normalCutOutKpa(scene);
  if (!cycle || cutOut === undefined) return cannotTell('needs-card-switch');
  if (!isJudgeable(scene, cycle))
    return cannotTell(cycle.cutOutKpa === undefined ? 'needs-pressure' : 'run-unseen');
  const spread = scene.pump.pinned?.cutOutKpa?.spread ?? 0;
  const limit = cutOut - Math.max(SHORT_KPA, SPREADS * spread);
  const short = (run: Cycle): boolean =>
    run.cutOutKpa !== undefined && run.cutOutKpa < limit - unseenKpa(scene, run);
  if (!short(cycle)) return CLEAR;
  const last = scene.pump.cycles
    .slice(-WINDOW_RUNS)
    .filter((run) => isJudgeable(scene, run) && short(run) && isAfterReset(scene, run.startedMs));
  // A switch that opens lower was turned down (../water/switch-shift.ts); a run that is cut short
  // ends where it ends.
  if (endedBySwitch(scene, last)) return CLEAR;
  if (last.length < MIN_SHORT_RUNS) return cannotTell('too-few-runs');
  if (!last.some((run) => run.flags.includes('no-cut-out'))) return cannotTell('near-limit');
  return {
    is: 'active',
    sinceMs: last[0]!.startedMs,
    reason: 'runs-end-under-cut-out',
    figures: { runs: last.length, ofRuns: WINDOW_RUNS, endedKpa: cycle.cutOutKpa ?? 0, cutOutKpa: cutOut },
    evidence: {
      runs: last.length,
      endedKpa: roundTo(cycle.cutOutKpa ?? 0, 0),
      cutOutKpa: roundTo(cutOut, 0),
    },
    causes: shortRunCauses(scene, last),
  };
}

/**
 * A switch that was turned down ends its runs at one pressure and starts them at cut-in. An
 * overload or a protector leaves the switch closed: the next run starts when it has cooled, or has
 * waited, at whatever the pressure is by then.
 */
function shortRunCauses(scene: Scene, runs: readonly Cycle[]): Active['causes'] {
  const ends = runs.map((run) => run.cutOutKpa ?? 0);
  const alike = Math.max(...ends) - Math.min(...ends) < ALIKE_KPA;
  const cutIn = normalCutInKpa(scene);
  const anywhere = runs
    .slice(1)
    .some((run) => cutIn !== undefined && Math.abs((run.cutInKpa ?? cutIn) - cutIn) > SHORT_KPA);
  const waitS = scene.pump.card.protectorRestartS;
  const waited =
    waitS !== undefined && runs.some((run) => Math.abs((run.restedS ?? 0) / waitS - 1) < WAIT_TOLERANCE);
  return weighCauses({
    'overload-tripping': anywhere ? 0.6 : alike ? 0.2 : 0.35,
    'protector-waiting': waited ? 0.6 : waitS === undefined ? 0.04 : 0.15,
    'switch-out-of-set': anywhere ? 0.05 : alike ? 0.45 : 0.2,
    'worn-pump': 0.15,
    'low-well': 0.15,
  });
}

/**
 * Long enough, and sampled often enough, to say where it ended. A run of some seconds never got
 * going: that is the switch's trouble or the motor's (../water/short-cycling.ts).
 */
function isJudgeable(scene: Scene, cycle: Cycle): boolean {
  return (
    cycle.cutOutKpa !== undefined &&
    cycle.readings >= 4 &&
    cycle.ranS >= Math.min(MIN_RUN_S, MIN_RUN_RATIO * (normalFillS(scene) ?? 0)) &&
    !cycle.flags.includes('gap') &&
    !cycle.flags.includes('failed-start')
  );
}

function evaluateRunning(scene: Scene, memory: AnnouncedMemory): Evaluation {
  const { run } = scene.pump;
  const announced = run !== undefined && isAnnounced(scene, run, memory);
  const cutIn = normalCutInKpa(scene);
  const cutOut = normalCutOutKpa(scene);
  if (!run) return cannotTell('pump-off');
  if (cutIn === undefined || cutOut === undefined) return cannotTell('needs-card-switch');
  if (run.ranS < MIN_WEAK_S) return cannotTell('not-long-enough');
  const minutes = lastMinutes(scene, LEVEL_MINUTES);
  if (!minutes) return cannotTell('too-few-readings');
  let low = Infinity;
  let high = -Infinity;
  let sum = 0;
  for (const minute of minutes) {
    if (!minute.kpa) return cannotTell('needs-pressure');
    if ((minute.pumps[scene.pump.index]?.ranS ?? 0) < 50) return cannotTell('too-few-readings');
    low = Math.min(low, minute.kpa.mean);
    high = Math.max(high, minute.kpa.mean);
    sum += minute.kpa.mean;
  }
  const level = sum / minutes.length;
  const near = level > cutIn + NEAR_TOP_FRACTION * (cutOut - cutIn) && high < cutOut - MIN_UNDER_KPA;
  if (!near || high - low > MAX_LEVEL_RANGE_KPA) return cannotTell('pump-running');
  if (run.ranS < minRunS(scene, announced)) return cannotTell(announced ? 'expected' : 'not-long-enough');
  return finding(scene, run, level, cutOut);
}

function minRunS(scene: Scene, announced: boolean): number {
  const { baseline } = scene.pump;
  const { uses } = scene.well.card;
  const field = uses.includes('irrigation') || uses.includes('stock') ? MIN_FIELD_RUN_S : MIN_HOUSE_RUN_S;
  const minute = scene.well.minutes[scene.well.minutes.length - 1];
  const amps = minute?.pumps[scene.pump.index] && runningAmps(minute.pumps[scene.pump.index]!);
  const low = isWeak(scene, amps?.mean);
  const longest = LONGEST_RUN_MULTIPLE * (baseline?.longestRunS ?? 0);
  if (announced) return Infinity;
  return low ? Math.max(MIN_WEAK_S, longest) : Math.max(field, longest);
}

function isWeak(scene: Scene, amps: number | undefined): boolean {
  const usual = normalAmpsOf(scene);
  if ((scene.well.water.deliveryRatio ?? 1) < LOW_DELIVERY_RATIO) return true;
  return amps !== undefined && usual !== undefined && amps < LOW_AMPS_RATIO * usual;
}

function finding(scene: Scene, run: OpenRun, level: number, cutOut: number): Active {
  const low = isWeak(scene, run.amps);
  const usual = normalAmpsOf(scene);
  return {
    is: 'active',
    sinceMs: run.startedMs,
    reason: 'pressure-levels-off',
    figures: { ranS: run.ranS, kpa: level, cutOutKpa: cutOut },
    evidence: {
      ranS: roundTo(run.ranS, 0),
      kpa: roundTo(level, 0),
      cutOutKpa: roundTo(cutOut, 0),
      ...(run.amps !== undefined && { amps: roundTo(run.amps) }),
      ...(usual !== undefined && { normalAmps: roundTo(usual) }),
    },
    causes: low
      ? weighCauses({
          'worn-pump': 0.45,
          'low-well': 0.2,
          'drop-pipe-leak': 0.1,
          'pitless-leak': 0.1,
          'switch-out-of-set': 0.1,
        })
      : weighCauses({
          'open-tap': 0.25,
          leak: 0.2,
          'worn-pump': 0.2,
          'low-well': 0.1,
          'drop-pipe-leak': 0.1,
          'pitless-leak': 0.1,
        }),
  };
}
