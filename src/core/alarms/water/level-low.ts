/**
 * The well's own level nears the pump: at rest, in the runs that draw it down, or by how it falls
 * from day to day. A pump needs some water over its intake to feed and to cool it. How much is on
 * the card; else 3 m (10 ft), which leaves days to act (common practice, no source). Where the
 * level was not much higher in the first days, half of their lowest counts: some wells live so.
 */
import { DAY_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { median } from '../../baseline/robust.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { activeSince, lastMinute, lastMinutes, type SinceMemory } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Priority } from '../../../../shared/text/en/alarms/kinds.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** 3 m, as the head of this file says (common practice, no source). */
const DEFAULT_LIMIT_M = 3;
/** While the first days are not known: 5 ft (common practice, no source). */
const UNLEARNED_LIMIT_M = 1.5;
const FIRST_DAYS = 4;
/** Three times what a level transducer of 0.1 % over 100 m may be off (argued, not measured). */
const DEADBAND_M = 0.3;
/** A run draws the level down for a minute or two: so many of them in a row are no splash. */
const LOW_RUNS = 3;
/**
 * Each of so many days lower than the one before, to reach the limit within a few at their rate: a
 * hot week draws the level down too, but not to there.
 */
const FALLING_DAYS = 4;
const FORECAST_DAYS = 3;
/** At the rate of so many minutes of pumping the intake is reached within the hour. */
const FALL_MINUTES = 10;
const MIN_FALL_M = 0.3;
const REACHED_MINUTES = 60;

interface LevelLowMemory extends SinceMemory {
  /** The lowest level of the day so far, and of each of the last days, oldest first. */
  dayLow?: number;
  lows: number[];
  /** The median of the lows of the first days. */
  firstLow?: number;
  /** The lowest level of the run going on, and of the last low ones; since when they were low. */
  runLow?: number;
  lowRuns?: number[];
  lowRunsSinceMs?: number;
}

export const levelLow: Watch<LevelLowMemory> = {
  alarm: 'level-low',
  scope: 'well',
  triggers: ['minute', 'day'],
  initialMemory: () => ({ lows: [] }),
  evaluate,
};

function evaluate(scene: Scene, memory: LevelLowMemory): Evaluation {
  if (scene.trigger === 'day') return closeDay(scene, memory);
  const minute = lastMinute(scene);
  const level = minute?.levelM;
  if (!minute || !level) return cannotTell('needs-level');
  memory.dayLow = roundTo(Math.min(memory.dayLow ?? level.low, level.low), 2);
  const limitM = limitOf(scene, memory);
  recordRun(scene, memory, { low: level.low, running: minute.pumps.some(({ ranS }) => ranS > 0), limitM });
  if (level.high < limitM) {
    const sinceMs = activeSince(memory, minute.atMs - MINUTE_MS);
    return nearIntake(memory, { levelM: level.mean, limitM, sinceMs }, priorityOf(scene, level.low));
  }
  const isClear = level.low > limitM + DEADBAND_M;
  if (isClear) delete memory.sinceMs;
  const lowRuns = memory.lowRuns ?? [];
  if (lowRuns.length >= LOW_RUNS) {
    const sinceMs = memory.lowRunsSinceMs ?? scene.atMs;
    return nearIntake(memory, { levelM: median(lowRuns)!, limitM, sinceMs }, undefined);
  }
  const forecast = forecastOf(scene, memory, limitM);
  if (forecast) return forecast;
  return isClear && lowRuns.length === 0 ? CLEAR : cannotTell('near-limit');
}

function limitOf(scene: Scene, { firstLow }: LevelLowMemory): number {
  const { levelLowM } = scene.well.card;
  if (levelLowM !== undefined) return levelLowM;
  return firstLow === undefined ? UNLEARNED_LIMIT_M : Math.min(DEFAULT_LIMIT_M, firstLow / 2);
}

/** Keeps the lowest levels of the last runs, as long as they are all under the limit. */
function recordRun(
  scene: Scene,
  memory: LevelLowMemory,
  { low, running, limitM }: { low: number; running: boolean; limitM: number },
): void {
  if (running) memory.runLow = roundTo(Math.min(memory.runLow ?? low, low), 2);
  else if (memory.runLow !== undefined) {
    const { runLow } = memory;
    delete memory.runLow;
    if (runLow < limitM) {
      memory.lowRuns = [...(memory.lowRuns ?? []), runLow].slice(-LOW_RUNS);
      memory.lowRunsSinceMs ??= scene.atMs;
    } else if (runLow > limitM + DEADBAND_M) {
      delete memory.lowRuns;
      delete memory.lowRunsSinceMs;
    }
  }
}

/**
 * Urgent where it falls so fast that the intake is reached within the hour. Each run draws the
 * level down in its first minutes, and no further.
 */
function priorityOf(scene: Scene, levelM: number): Priority | undefined {
  const minutes = lastMinutes(scene, FALL_MINUTES);
  const first = minutes?.[0]?.levelM?.mean;
  const last = minutes?.[FALL_MINUTES - 1]?.levelM?.mean;
  if (!minutes || first === undefined || last === undefined || first - last < MIN_FALL_M) return undefined;
  if (!minutes.every(({ pumps }) => pumps.some(({ ranS }) => ranS > 50))) return undefined;
  const leftMinutes = (Math.max(0, levelM) * (FALL_MINUTES - 1)) / (first - last);
  return leftMinutes < REACHED_MINUTES ? 'now' : undefined;
}

function nearIntake(
  memory: LevelLowMemory,
  { levelM, limitM, sinceMs }: { levelM: number; limitM: number; sinceMs: number },
  priority: Priority | undefined,
): Active {
  return {
    is: 'active',
    sinceMs,
    ...(priority && { priority }),
    reason: 'level-near-intake',
    figures: { levelM: Math.max(0, levelM) },
    evidence: { levelM: roundTo(levelM), limitM: roundTo(limitM), ...lowestDay(memory) },
    causes: weighCauses({ 'low-well': 0.85, 'transducer-fault': 0.1, 'habit-changed': 0.05 }),
  };
}

function lowestDay({ lows }: LevelLowMemory): { lowestDayM?: number } {
  return lows.length === 0 ? {} : { lowestDayM: Math.min(...lows) };
}

/** Day after day lower, and at the limit within days. */
function forecastOf(scene: Scene, memory: LevelLowMemory, limitM: number): Active | undefined {
  const lows = memory.lows.slice(-FALLING_DAYS - 1);
  if (lows.length <= FALLING_DAYS || lows.some((low, at) => at > 0 && low >= lows[at - 1]!)) return undefined;
  const levelM = lows[lows.length - 1]!;
  const fallMPerDay = (lows[0]! - levelM) / FALLING_DAYS;
  const days = Math.max(0, (levelM - limitM) / fallMPerDay);
  if (days > FORECAST_DAYS) return undefined;
  return {
    is: 'active',
    sinceMs: scene.well.dayStartedMs - FALLING_DAYS * DAY_MS,
    reason: 'level-falls',
    figures: { levelM: Math.max(0, levelM), fallMPerDay, limitM, days },
    evidence: {
      levelM,
      fallMPerDay: roundTo(fallMPerDay),
      limitM: roundTo(limitM),
      days: roundTo(days, 1),
    },
    causes: weighCauses({ 'low-well': 0.85, 'habit-changed': 0.15 }),
  };
}

function closeDay({ well }: Scene, memory: LevelLowMemory): Evaluation {
  if (memory.dayLow !== undefined) memory.lows = [...memory.lows, memory.dayLow].slice(-FALLING_DAYS - 1);
  delete memory.dayLow;
  if (memory.lows.length === FIRST_DAYS && well.card.levelLowM === undefined)
    memory.firstLow ??= roundTo(median(memory.lows)!, 2);
  return cannotTell('not-this-trigger');
}
