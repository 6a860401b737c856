/**
 * The store or trough is lower than it ever is. How low it goes when all is well is learnt from the
 * lowest of each day; a float that fills late now and then is part of it.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cannotTell, type CannotTell, type Evaluation } from '../evaluation.ts';
import { lastMinute, lastMinutes, activeSince, forgetSince, type SinceMemory } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/**
 * A fortnight holds each weekday twice; the lowest of four days is the least that tells a low from
 * a single late fill (argued, not measured).
 */
const WINDOW_DAYS = 14;
const MIN_DAYS = 4;
/**
 * Under the lowest day by this share of what the store usually moves through, and by 5 cm at least:
 * waves and the sensor.
 */
const UNDER_FRACTION = 0.25;
const MIN_UNDER_M = 0.05;
// No warning by the hours of water that are left: a herd at the trough takes a day's water in an
// hour, and at that rate every store is empty soon. The hours are said with the alarm.
/** Longer than a motor waits between two tries. */
const REST_MINUTES = 15;
/** Less than this in the minutes that are known may be waves; argued, no source. */
const MIN_FALL_M = 0.02;
const MIN_FALL_MS = 15 * MINUTE_MS;
/** 5 % of range, 60 s: the alarm standards' starting values for a level (from memory). */
const DEADBAND_FRACTION = 0.05;

interface StoreMemory extends SinceMemory {
  /** The lowest and highest level of the day so far, and of each of the last days. */
  dayLow?: number;
  dayHigh?: number;
  lows: number[];
  highs: number[];
}

export const storeLow: Watch<StoreMemory> = {
  alarm: 'store-low',
  scope: 'well',
  triggers: ['minute', 'day'],
  initialMemory: () => ({ lows: [], highs: [] }),
  evaluate,
};

function evaluate(scene: Scene, memory: StoreMemory): Evaluation {
  return scene.trigger === 'day' ? closeDay(memory) : evaluateMinute(scene, memory);
}

/** A day on which it stood low teaches nothing. */
function closeDay(memory: StoreMemory): CannotTell {
  const { dayLow, dayHigh } = memory;
  if (dayLow !== undefined && memory.sinceMs === undefined) {
    memory.lows = [...memory.lows, dayLow].slice(-WINDOW_DAYS);
    memory.highs = [...memory.highs, dayHigh ?? dayLow].slice(-WINDOW_DAYS);
  }
  delete memory.dayLow;
  delete memory.dayHigh;
  return cannotTell('not-this-trigger');
}

function evaluateMinute(scene: Scene, memory: StoreMemory): Evaluation {
  const minute = lastMinute(scene);
  const store = minute?.storeM;
  if (!minute || !store) return cannotTell('needs-store-level');
  memory.dayLow = roundTo(Math.min(memory.dayLow ?? store.low, store.low), 3);
  memory.dayHigh = roundTo(Math.max(memory.dayHigh ?? store.high, store.high), 3);
  const { lows, highs } = memory;
  if (lows.length < MIN_DAYS) return cannotTell('too-few-days');
  const lowest = Math.min(...lows);
  const range = Math.max(...highs) - lowest;
  const limit = Math.max(lowest - Math.max(MIN_UNDER_M, UNDER_FRACTION * range), 0.3 * lowest);
  if (store.low > limit + Math.max(0.02, DEADBAND_FRACTION * range)) return forgetSince(memory);
  if (store.high >= limit) return cannotTell('near-limit');
  return {
    is: 'active',
    sinceMs: activeSince(memory, minute.atMs - MINUTE_MS),
    reason: 'store-under-lowest-day',
    figures: { storeM: store.mean, days: lows.length, lowestM: lowest, ...emptyIn(scene) },
    evidence: { storeM: roundTo(store.mean), lowestM: roundTo(lowest), limitM: roundTo(limit) },
    causes: areFloatPumpsResting(scene)
      ? weighCauses({
          'power-lost': 0.25,
          'breaker-open': 0.25,
          'switch-out-of-set': 0.2,
          'overload-tripping': 0.1,
          'failing-motor': 0.1,
          leak: 0.05,
        })
      : weighCauses({
          'power-lost': 0.15,
          'breaker-open': 0.15,
          leak: 0.2,
          'habit-changed': 0.15,
          'low-well': 0.1,
          'switch-out-of-set': 0.15,
          'failing-motor': 0.1,
        }),
  };
}

/** How long what is there lasts at the rate at which it has fallen in the minutes before. */
function emptyIn({ well: { minutes } }: Scene): { emptyInS?: number } {
  const known = minutes.filter((minute) => minute.storeM !== undefined);
  const [first, last] = [known[0], known[known.length - 1]];
  if (!first || !last || last.atMs - first.atMs < MIN_FALL_MS) return {};
  const fallM = first.storeM!.mean - last.storeM!.mean;
  if (fallM < MIN_FALL_M) return {};
  return { emptyInS: (last.storeM!.mean / fallM) * ((last.atMs - first.atMs) / 1000) };
}

/**
 * A float calls for the pump long before the store is lower than ever: one that rests all the while
 * was not called, or does not answer.
 */
function areFloatPumpsResting(scene: Scene): boolean {
  const minutes = lastMinutes(scene, REST_MINUTES);
  const floats = scene.pumps.filter(({ card }) => card.control === 'float');
  return (
    floats.length > 0 &&
    minutes !== undefined &&
    minutes.every(({ pumps }) =>
      floats.every(({ index }) => pumps[index]?.ranS === 0 && (pumps[index]?.heardS ?? 0) > 30),
    )
  );
}
