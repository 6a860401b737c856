/**
 * A loss that does not cease. What people draw ends, and then some quiet block of every few hours
 * shows next to nothing; a leak shows in the quietest block of every hour, by day and by night
 * alike. So one day and night without a still block tells a large leak, and neither a trickle
 * against frost nor a garden that is watered at night looks like it.
 */
import { HOUR_MS } from '../../../shared/units/duration.ts';

export interface HourlyLows {
  /**
   * Hours since 1970 that had a quiet block, oldest first, and the lowest loss of a block in each,
   * L/h.
   */
  hours: number[];
  lows: number[];
}

export interface ContinuousLoss {
  /** From the first of the hours to the last. */
  hours: number;
  lPerH: number;
}

/**
 * A day and night with a few hours to spare: a loss counts after 20 of them
 * (../alarms/water/leak.ts).
 */
const HISTORY_H = 30;
/**
 * An hour holds to the loss where its quietest block shows this share of what is usual: a block is
 * 6 min, and rough.
 */
const MIN_HOUR_RATIO = 0.6;
/** Hours without a quiet block in between: a garden party of this length hides nothing yet. */
const MAX_GAP_H = 4;
/** Of the hours from first to last so many must have been heard. */
const MIN_HEARD_FRACTION = 0.5;

export function newHourlyLows(): HourlyLows {
  return { hours: [], lows: [] };
}

/** Notes a quiet block that ended at `atMs`. */
export function recordBlock(hourlyLows: HourlyLows, atMs: number, lPerH: number): void {
  const { hours, lows } = hourlyLows;
  const hour = Math.floor(atMs / HOUR_MS);
  const low = Math.round(Math.min(lPerH, 1e4) * 10) / 10;
  const last = hours.length - 1;
  if (hours[last] === hour) lows[last] = Math.min(lows[last]!, low);
  else {
    hours.push(hour);
    lows.push(low);
  }
  while (hours.length > 0 && hours[0]! <= hour - HISTORY_H) {
    hours.shift();
    lows.shift();
  }
}

/**
 * The loss that has not ceased up to `atMs`; undefined where a still block was just seen, or
 * nothing quiet for hours.
 */
export function continuousLoss({ hours, lows }: HourlyLows, atMs: number): ContinuousLoss | undefined {
  const last = hours.length - 1;
  if (last < 2 || lows[last]! <= 0 || Math.floor(atMs / HOUR_MS) - hours[last]! > MAX_GAP_H) return undefined;
  let from = last;
  let sum = lows[last]!;
  while (from > 0 && hours[from]! - hours[from - 1]! <= MAX_GAP_H) {
    const usual = sum / (last - from + 1);
    if (lows[from - 1]! < MIN_HOUR_RATIO * usual) break;
    sum += lows[--from]!;
  }
  const n = last - from + 1;
  const span = hours[last]! - hours[from]! + 1;
  if (n < 3 || n < MIN_HEARD_FRACTION * span) return undefined;
  return { hours: span, lPerH: lowerHalfMean(lows.slice(from)) };
}

/** Mean of the lower half: draws in an hour without pause only ever add. */
function lowerHalfMean(lows: number[]): number {
  const lower = lows.toSorted((a, b) => a - b).slice(0, Math.ceil(lows.length / 2));
  return lower.reduce((sum, low) => sum + low, 0) / lower.length;
}
