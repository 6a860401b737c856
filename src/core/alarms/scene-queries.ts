/**
 * What several watches ask of a scene: the last whole minute, the cycles since watching began, the
 * pressures to compare with. Whatever cannot be told is undefined, and the watch that needed it
 * then says nothing.
 */
import { DAY_S, MINUTE_MS } from '../../../shared/units/duration.ts';
import { kpaFromPsi } from '../../../shared/units/pressure.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { CLEAR, type Clear } from './evaluation.ts';
import type { MinutePump, MinuteScene, PumpScene, Scene, MinuteStats } from './scene.ts';

/** 1 psi in kPa, for the limits that the trade states in psi. */
export const KPA_PER_PSI = kpaFromPsi(1);

/**
 * The newest minute, where it lies wholly after watching began and is the one that has just ended.
 */
export function lastMinute(scene: Scene): MinuteScene | undefined {
  const minute = scene.well.minutes[scene.well.minutes.length - 1];
  if (!minute || scene.atMs - minute.atMs > MINUTE_MS) return undefined;
  return isAfterReset(scene, minute.atMs - MINUTE_MS) ? minute : undefined;
}

/**
 * The newest `count` minutes that follow each other without a hole, newest last; undefined where
 * there are fewer.
 */
export function lastMinutes(scene: Scene, count: number): MinuteScene[] | undefined {
  const { minutes } = scene.well;
  const from = minutes.length - count;
  const first = minutes[from];
  const last = lastMinute(scene);
  if (from < 0 || !first || !last || !isAfterReset(scene, first.atMs - MINUTE_MS)) return undefined;
  return last.atMs - first.atMs === (count - 1) * MINUTE_MS ? minutes.slice(from) : undefined;
}

export function isAfterReset(scene: Scene, atMs: number): boolean {
  return scene.resetAtMs === undefined || atMs >= scene.resetAtMs;
}

/** The scene's pump in one minute. */
export function pumpInMinute(scene: Scene, minute: MinuteScene): MinutePump | undefined {
  return minute.pumps[scene.pump.index];
}

/** Newest `count` whole cycles since watching began that satisfy `accepts`, newest last. */
export function recentCycles(
  scene: Scene,
  count: number,
  accepts: (cycle: Cycle) => boolean = isCompleteRun,
): Cycle[] {
  const found: Cycle[] = [];
  const { cycles } = scene.pump;
  for (let at = cycles.length - 1; at >= 0 && found.length < count; at--) {
    const cycle = cycles[at]!;
    if (!isAfterReset(scene, cycle.startedMs)) break;
    if (accepts(cycle)) found.push(cycle);
  }
  return found.reverse();
}

/** A run that was seen from start to stop and was one. */
export function isCompleteRun(cycle: Cycle): boolean {
  return !cycle.flags.some(
    (flag) => flag === 'gap' || flag === 'clock-step' || flag === 'merged' || flag === 'failed-start',
  );
}

/** Where this control makes pressure cycles between two points. */
export function hasPressureCycle(pump: PumpScene): boolean {
  return pump.card.control === 'pressure-switch' || pump.card.control === 'constant-pressure-valve';
}

/**
 * Does pressure say anything of this pump? A float or a timer fills a store, whatever the pressure
 * does.
 */
export function usesPressure(pump: PumpScene): boolean {
  return pump.card.control !== 'float' && pump.card.control !== 'timer';
}

/**
 * A fill without any draw, s: the lower quartile of the runs as first learnt. Behind a throttling
 * valve a week of watering has no such run in four, so there it is the shortest of all that were
 * learnt.
 */
export function normalFillS(scene: Scene): number | undefined {
  const { pinned, baseline, card } = scene.pump;
  if (card.control !== 'constant-pressure-valve') return (pinned?.ranLowS ?? baseline?.ranLowS)?.median;
  return pinned?.ranMinS ?? baseline?.ranMinS;
}

/** Cut-in as first learnt or pinned, else as learnt, else as the card says, kPa. */
export function normalCutInKpa(scene: Scene): number | undefined {
  const { pinned, baseline } = scene.pump;
  return pinned?.cutInKpa?.median ?? baseline?.cutInKpa?.median ?? scene.well.card.switch.cutInKpa;
}

/** Cut-out by the same order, kPa. */
export function normalCutOutKpa(scene: Scene): number | undefined {
  const { pinned, baseline } = scene.pump;
  return pinned?.cutOutKpa?.median ?? baseline?.cutOutKpa?.median ?? scene.well.card.switch.cutOutKpa;
}

/**
 * The highest pressure at which this switch is known to open: of the card and what was learnt;
 * while nothing is learnt, of the last runs too (their median), since a card may be wrong from the
 * first day. Later a switch that opens too high is a fault.
 */
export function highestCutOutKpa(scene: Scene): number | undefined {
  const { pinned, baseline, cycles } = scene.pump;
  const known = maxDefined(
    maxDefined(pinned?.cutOutKpa?.median, baseline?.cutOutKpa?.median),
    scene.well.card.switch.cutOutKpa,
  );
  if (pinned?.cutOutKpa) return known;
  const seen = lastPressures(cycles, 'cutOutKpa');
  return seen.length >= 3 ? maxDefined(known, seen[seen.length >> 1]) : known;
}

/**
 * The lowest pressure at which this switch is known to close: of the card, what was learnt, and the
 * last runs (their median). `useCard` false leaves the card out: its one switch may be another
 * pump's.
 */
export function lowestCutInKpa(scene: Scene, useCard = true): number | undefined {
  const { pinned, baseline, cycles } = scene.pump;
  const onCard = useCard ? scene.well.card.switch.cutInKpa : undefined;
  const known = minDefined(minDefined(pinned?.cutInKpa?.median, baseline?.cutInKpa?.median), onCard);
  const seen = lastPressures(cycles, 'cutInKpa');
  if (seen.length >= 3) return minDefined(known, seen[seen.length >> 1]);
  // While nothing is learnt a card may be of another switch: one run has shown more.
  return pinned?.cutInKpa ? known : minDefined(known, seen[0]);
}

/** The median of five holds though two of them are odd. */
const RECENT_RUNS = 5;

/**
 * Of the last runs, lowest first: so few, and asked for so often, that each is put in its place as
 * it comes.
 */
function lastPressures(cycles: readonly Cycle[], field: 'cutInKpa' | 'cutOutKpa'): number[] {
  const seen: number[] = [];
  for (let i = Math.max(0, cycles.length - RECENT_RUNS); i < cycles.length; i++) {
    const kpa = cycles[i]![field];
    if (kpa === undefined) continue;
    let at = seen.length;
    for (; at > 0 && seen[at - 1]! > kpa; at--) seen[at] = seen[at - 1]!;
    seen[at] = kpa;
  }
  return seen;
}

function maxDefined(one: number | undefined, other: number | undefined): number | undefined {
  return one === undefined || (other !== undefined && other > one) ? other : one;
}

function minDefined(one: number | undefined, other: number | undefined): number | undefined {
  return one === undefined || (other !== undefined && other < one) ? other : one;
}

/**
 * Did a quantity stand over `limit` through the minute, and not in one reading only? Its robust low
 * is over it; or, where it rose within the minute, its mean and last are, of at least three
 * readings.
 */
export function stayedOver(spread: MinuteStats | undefined, limit: number): boolean {
  if (!spread) return false;
  return spread.low > limit || (spread.n >= 3 && spread.mean > limit && spread.last > limit);
}

/**
 * Current of all lines in one minute while running: the mean of the first line that has readings.
 */
export function runningAmps(pump: MinutePump): MinuteStats | undefined {
  return pump.running[0];
}

/**
 * What the pump usually draws while running, A: at first learnt or pinned, else learnt; undefined
 * while not known.
 */
export function normalAmpsOf(scene: Scene): number | undefined {
  return scene.pump.pinned?.amps?.median ?? scene.pump.baseline?.amps?.median;
}

/** Since when a condition has held, ms: as remembered, or from now on as given. */
export function activeSince(memory: SinceMemory, sinceMs: number): number {
  memory.sinceMs ??= sinceMs;
  return memory.sinceMs;
}

/** The condition is gone. */
export function forgetSince(memory: SinceMemory): Clear {
  delete memory.sinceMs;
  return CLEAR;
}

/** The part of a watch's memory that holds since when its condition has held. */
export interface SinceMemory {
  sinceMs?: number;
}

/** The pump ran through all of these minutes. */
export function ranThroughout(scene: Scene, minutes: readonly MinuteScene[]): boolean {
  return minutes.every((minute) => (minute.pumps[scene.pump.index]?.ranS ?? 0) > 50);
}

/** Fewer starts a day than this, in the mean of the days learned, are rare. */
const RARE_STARTS_PER_DAY = 1.5;
const MIN_RARE_DAYS = 7;

/** Does this pump start so seldom that a statistic of many runs would take weeks? */
export function hasRareRuns({ habit: { days } }: PumpScene): boolean {
  if (days.length < MIN_RARE_DAYS) return false;
  return days.reduce((sum, [, cycles]) => sum + cycles, 0) < RARE_STARTS_PER_DAY * days.length;
}

/** Fraction of the day that the pump runs, in the mean of the days learned. */
export function dutyFraction({ habit: { days } }: PumpScene): number | undefined {
  if (days.length < MIN_RARE_DAYS) return undefined;
  return days.reduce((sum, [, , ranS]) => sum + ranS, 0) / days.length / DAY_S;
}
