/**
 * A run longer than this well ever needs. Held in the band by what is drawn, all that can be held
 * against it is its length: by what this well does at that hour, by the season's longest where a
 * field is watered, and by its fills where a store is filled.
 */
import { HOUR_S, MINUTE_S } from '../../../../shared/units/duration.ts';
import type { Baseline } from '../../baseline/baseline.ts';
import { localHour, longestRunAtS } from '../../baseline/habit.ts';
import { trendRise } from '../../baseline/trend.ts';
import { drawsForHours } from '../../domain/uses.ts';
import type { Active } from '../evaluation.ts';
import {
  normalCutInKpa,
  highestCutOutKpa,
  lastMinutes,
  usesPressure,
  normalAmpsOf,
} from '../scene-queries.ts';
import { priorityWhileAsked, type AskedMemory } from './meant-or-not.ts';
import { roundTo } from '../round.ts';
import { beginsByClock, type ClockMemory } from './same-clock-time.ts';
import type { MinuteScene, OpenRun, PumpScene, Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Of its usual current: a drive at less serves less than a tap. */
const IDLE_DRIVE_RATIO = 1;
/**
 * In the band with water drawn. A house: a pool or a cistern is filled for 12 h, from evening till
 * morning, and two hours over. A field: a set of sprinklers is left from one morning to the next,
 * and six hours over. Argued, not measured.
 */
const MAX_IN_BAND_S = { house: 14 * HOUR_S, field: 30 * HOUR_S };
/**
 * Once a week is known, a run longer than 2.5 of the longest ever is asked about within the hour;
 * under 40 min it may be a bath and a washing machine in a row. A lawn is watered for hours the
 * first time too: that is what the question is for. Argued, not measured.
 */
const MIN_HABIT_DAYS = 7;
const MIN_ASK_S = 40 * MINUTE_S;
/** Only where no run of those days was a garden's. */
const MAX_SHORT_RUN_S = HOUR_S / 2;
/**
 * 2.5 of what this well did at least twice. Of a field that was seen to be watered, that is all it
 * needs.
 */
export const LONGEST_RUN_MULTIPLE = 2.5;
const MIN_WATERED_S = 2 * HOUR_S;
/**
 * A float or timer fills the same store each time: 2.5 of its longest fills, one hour over it at
 * least; a day while none was learnt.
 */
const STORE_MARGIN_S = HOUR_S;
const STORE_DEFAULT_S = 24 * HOUR_S;
/**
 * A store that was emptied takes longer than it ever did: while its level rises the fill is not
 * over, for a day.
 */
const STORE_RISING_MINUTES = 30;

/** Of the delivery as first learned. */
const WEAK_DELIVERY_RATIO = 0.85;

/** How long a run of this well may be, s. */
function runLimitS(scene: Scene, run: OpenRun): number {
  const { baseline, pinned, habit } = scene.pump;
  const { uses, longRunS } = scene.well.card;
  if (longRunS !== undefined) return longRunS;
  const longest = Math.max(baseline?.longestRunS ?? 0, pinned?.longestRunS ?? 0);
  if (!usesPressure(scene.pump)) {
    if (longest === 0 || isStoreRising(scene)) return STORE_DEFAULT_S;
    return Math.max(LONGEST_RUN_MULTIPLE * longest, longest + STORE_MARGIN_S);
  }
  if (hasOnlyShortRuns(scene)) return Math.max(MIN_ASK_S, LONGEST_RUN_MULTIPLE * longestKnownS(scene.pump));
  if (drawsForHours(uses) || uses.includes('stock')) {
    const known = longest > MIN_WATERED_S;
    return Math.max(known ? MAX_IN_BAND_S.house : MAX_IN_BAND_S.field, LONGEST_RUN_MULTIPLE * longest);
  }
  const { dayStartedMs: startMs, dayEndsMs: endMs } = scene.well;
  const atThisHourS = longestRunAtS(habit, localHour({ startMs, endMs }, run.startedMs));
  return Math.max(MAX_IN_BAND_S.house, LONGEST_RUN_MULTIPLE * atThisHourS);
}

/** Of all that is remembered, also what came once. */
function longestKnownS({ baseline, pinned, habit }: LearnedRuns): number {
  return Math.max(
    baseline?.longestRunS ?? 0,
    pinned?.longestRunS ?? 0,
    ...habit.days.map(([, , , , longestS]) => longestS),
  );
}

type LearnedRuns = Pick<PumpScene, 'habit'> & {
  [key in 'baseline' | 'pinned']?: Baseline | undefined;
};

/** The same, once a week is known. */
export function longestLearnedRunS(pump: LearnedRuns): number | undefined {
  return pump.habit.days.length < MIN_HABIT_DAYS ? undefined : longestKnownS(pump);
}

/**
 * A well that in a week has never drawn water for half an hour on end fills no pool in silence:
 * somebody knows of it, or nobody does. A field is watered by the weather.
 */
export function hasOnlyShortRuns(scene: Scene): boolean {
  const { pump, well } = scene;
  if (drawsForHours(well.card.uses)) return false;
  return (longestLearnedRunS(pump) ?? Infinity) < MAX_SHORT_RUN_S;
}

function isStoreRising(scene: Scene): boolean {
  const levels = lastMinutes(scene, STORE_RISING_MINUTES)?.map((minute) => minute.storeM?.mean);
  return levels !== undefined && levels.every((level) => level !== undefined) && trendRise(levels) > 0;
}

/** Undefined if it may go on. */
export function tooLongFinding(
  scene: Scene,
  run: OpenRun,
  minute: MinuteScene,
  memory: AskedMemory & ClockMemory,
): Active | undefined {
  const kpa = usesPressure(scene.pump) ? minute.kpa?.mean : undefined;
  const limit = runLimitS(scene, run);
  if (run.ranS <= limit) return undefined;
  const longest = hasOnlyShortRuns(scene) ? longestKnownS(scene.pump) : scene.pump.baseline?.longestRunS;
  const priority = priorityWhileAsked(scene, memory);
  return {
    is: 'active',
    sinceMs: run.startedMs,
    priority,
    reason: priority === 'soon' ? 'run-unusually-long' : 'run-too-long',
    figures: {
      ranS: run.ranS,
      ...(kpa !== undefined && { kpa }),
      ...(longest !== undefined && { longestRunS: longest }),
    },
    evidence: {
      ranS: roundTo(run.ranS, 0),
      limitS: roundTo(limit, 0),
      ...(longest !== undefined && { longestRunS: longest }),
      ...(kpa !== undefined && { kpa: roundTo(kpa, 0) }),
    },
    causes: causesOf(scene, { run, kpa, byClock: beginsByClock(run, memory) }),
  };
}

function causesOf(
  scene: Scene,
  { run, kpa, byClock }: { run: OpenRun; kpa: number | undefined; byClock: boolean },
): Active['causes'] {
  if (isIdleDrive(scene, run))
    return weighCauses({ leak: 0.35, 'open-tap': 0.35, 'check-valve': 0.15, 'switch-out-of-set': 0.15 });
  if (isWeak(scene, run, kpa))
    return weighCauses({
      'worn-pump': 0.45,
      'low-well': 0.2,
      'drop-pipe-leak': 0.1,
      'pitless-leak': 0.1,
      leak: 0.1,
    });
  if (!usesPressure(scene.pump))
    return weighCauses({
      'switch-contacts-stuck': 0.3,
      leak: 0.2,
      'worn-pump': 0.2,
      'low-well': 0.15,
      'open-tap': 0.15,
    });
  return weighCauses({
    'softener-regenerating': byClock ? 0.6 : 0,
    'open-tap': 0.3,
    leak: 0.2,
    'broken-pipe': 0.15,
    'worn-pump': 0.15,
    'low-well': 0.1,
    'switch-contacts-stuck': 0.1,
  });
}

/**
 * A drive that turns over at the least it ever draws, and does not sleep: a little runs out all the
 * time.
 */
function isIdleDrive(scene: Scene, run: OpenRun): boolean {
  const usual = normalAmpsOf(scene);
  if (scene.pump.card.control !== 'variable-speed' || usual === undefined || run.amps === undefined)
    return false;
  return run.amps < IDLE_DRIVE_RATIO * usual;
}

/**
 * Held in the upper half of the band with less current than usual, or by a pump whose fills have
 * shown that it delivers less: it is weak, and no tap is open.
 */
function isWeak(scene: Scene, run: OpenRun, kpa: number | undefined): boolean {
  const cutIn = normalCutInKpa(scene);
  const cutOut = highestCutOutKpa(scene);
  const usual = normalAmpsOf(scene);
  if (kpa === undefined || cutIn === undefined || cutOut === undefined || usual === undefined) return false;
  if (scene.pump.card.control !== 'pressure-switch') return false;
  if (kpa <= cutIn + (cutOut - cutIn) / 2) return false;
  const lessWater = (scene.well.water.deliveryRatio ?? 1) < WEAK_DELIVERY_RATIO;
  return lessWater || (run.amps !== undefined && run.amps < 0.97 * usual);
}
