/**
 * A run longer than this well ever needs. Held in the band by what is drawn, all that can be held
 * against it is its length: by what this well does at that hour, by the season's longest where a
 * field is watered, and by its fills where a store is filled.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import { localHour, longestRunAtS } from '../../baseline/habit.ts';
import { trendRise } from '../../baseline/trend.ts';
import type { Active } from '../evaluation.ts';
import {
  normalCutInKpa,
  highestCutOutKpa,
  lastMinutes,
  usesPressure,
  normalAmpsOf,
} from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { MinuteScene, OpenRun, Scene } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Of its usual current: a drive at less serves less than a tap. */
const IDLE_DRIVE_RATIO = 1;
/**
 * In the band with water drawn. A house: a pool or a cistern is filled for 12 h, from evening till
 * morning, and two hours over; a tap left open in the evening is told in the morning. A field: a
 * set of sprinklers is left from one morning to the next, and six hours over. Argued, not measured.
 */
const MAX_IN_BAND_S = { house: 14 * HOUR_S, field: 30 * HOUR_S };
/**
 * A house whose runs of two weeks all ended within half an hour: four hours on end are eight times
 * what it ever needed, and longer than a lawn is watered in one go. A pool that nobody announced is
 * told by it, and should be: it looks like a tap left open. Argued, not measured.
 */
const MIN_HABIT_DAYS = 12;
const MAX_SHORT_RUN_S = HOUR_S / 2;
const SHORT_RUN_HOUSE_LIMIT_S = 4 * HOUR_S;
/**
 * Such a house draws no water through an hour of the night: those who leave a hose open do so by
 * day. Argued, not measured.
 */
const NIGHT_ENDS_H = 5;
const NIGHT_LIMIT_S = HOUR_S;
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

/** How long a run of this well may be, s. */
function runLimitS(scene: Scene, run: OpenRun): number {
  const { baseline, pinned, habit } = scene.pump;
  const longest = Math.max(baseline?.longestRunS ?? 0, pinned?.longestRunS ?? 0);
  if (!usesPressure(scene.pump)) {
    if (longest === 0 || isStoreRising(scene)) return STORE_DEFAULT_S;
    return Math.max(LONGEST_RUN_MULTIPLE * longest, longest + STORE_MARGIN_S);
  }
  const { uses } = scene.well.card;
  if (uses.includes('irrigation') || uses.includes('stock')) {
    const known = longest > MIN_WATERED_S;
    return Math.max(known ? MAX_IN_BAND_S.house : MAX_IN_BAND_S.field, LONGEST_RUN_MULTIPLE * longest);
  }
  const { dayStartedMs: startMs, dayEndsMs: endMs } = scene.well;
  const atThisHourS = longestRunAtS(habit, localHour({ startMs, endMs }, run.startedMs));
  if (!hasOnlyShortRuns(scene)) return Math.max(MAX_IN_BAND_S.house, LONGEST_RUN_MULTIPLE * atThisHourS);
  return Math.min(
    nightLimitS(scene, run),
    Math.max(SHORT_RUN_HOUSE_LIMIT_S, LONGEST_RUN_MULTIPLE * atThisHourS),
  );
}

/**
 * How long a run is that has gone on through an hour of the night that is over, s; no limit while
 * none is.
 */
function nightLimitS({ well, atMs }: Scene, run: OpenRun): number {
  const fromMs = Math.max(run.startedMs, well.dayStartedMs);
  const untilMs = fromMs + 1000 * NIGHT_LIMIT_S;
  if (atMs < untilMs || untilMs > well.dayStartedMs + 1000 * HOUR_S * NIGHT_ENDS_H) return Infinity;
  return (untilMs - run.startedMs) / 1000;
}

/**
 * A house that in weeks has never drawn water for half an hour on end fills no pool in silence:
 * somebody knows of it, or nobody does.
 */
export function hasOnlyShortRuns({ pump, well }: Scene): boolean {
  if (well.card.uses.includes('irrigation') || well.card.uses.includes('stock')) return false;
  const { baseline, pinned, habit } = pump;
  const longest = Math.max(
    baseline?.longestRunS ?? 0,
    pinned?.longestRunS ?? 0,
    ...habit.days.map(([, , , , longestS]) => longestS),
  );
  return habit.days.length >= MIN_HABIT_DAYS && longest < MAX_SHORT_RUN_S;
}

function isStoreRising(scene: Scene): boolean {
  const levels = lastMinutes(scene, STORE_RISING_MINUTES)?.map((minute) => minute.storeM?.mean);
  return levels !== undefined && levels.every((level) => level !== undefined) && trendRise(levels) > 0;
}

/** Undefined if it may go on. */
export function tooLongFinding(scene: Scene, run: OpenRun, minute: MinuteScene): Active | undefined {
  const kpa = usesPressure(scene.pump) ? minute.kpa?.mean : undefined;
  const limit = runLimitS(scene, run);
  if (run.ranS <= limit) return undefined;
  const longest = scene.pump.baseline?.longestRunS;
  return {
    is: 'active',
    sinceMs: run.startedMs,
    reason: 'run-too-long',
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
    causes: weighCauses(
      isIdleDrive(scene, run)
        ? { leak: 0.35, 'open-tap': 0.35, 'check-valve': 0.15, 'switch-out-of-set': 0.15 }
        : isWeak(scene, run, kpa)
          ? { 'worn-pump': 0.45, 'low-well': 0.2, 'drop-pipe-leak': 0.1, 'pitless-leak': 0.1, leak: 0.1 }
          : usesPressure(scene.pump)
            ? {
                'open-tap': 0.3,
                leak: 0.2,
                'broken-pipe': 0.15,
                'worn-pump': 0.15,
                'low-well': 0.1,
                'switch-contacts-stuck': 0.1,
              }
            : {
                'switch-contacts-stuck': 0.3,
                leak: 0.2,
                'worn-pump': 0.2,
                'low-well': 0.15,
                'open-tap': 0.15,
              },
    ),
  };
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
 * Held in the upper half of the band with less current than usual: little water goes, so the pump
 * is weak and no tap is open.
 */
function isWeak(scene: Scene, run: OpenRun, kpa: number | undefined): boolean {
  const cutIn = normalCutInKpa(scene);
  const cutOut = highestCutOutKpa(scene);
  const usual = normalAmpsOf(scene);
  if (kpa === undefined || cutIn === undefined || cutOut === undefined || usual === undefined) return false;
  if (scene.pump.card.control !== 'pressure-switch') return false;
  return kpa > cutIn + (cutOut - cutIn) / 2 && run.amps !== undefined && run.amps < 0.97 * usual;
}
