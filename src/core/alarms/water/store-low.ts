/**
 * The store or trough is lower than it ever is. How low it goes when all is well is learnt from the lowest of each day; a float
 * that fills late now and then is part of it.
 */
import { HOUR_S, MINUTE_MS } from '../../../../shared/units/duration.ts';
import {
  lastMinute,
  lastMinutes,
  memoryList,
  memoryNumber,
  activeSince,
  clearActive,
} from '../scene-queries.ts';
import { formatLength, roundTo } from '../format.ts';
import type { Finding, WatchMemory, Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

const WINDOW_DAYS = 14;
const MIN_DAYS = 4;
/** Under the lowest day by this share of what the store usually moves through, and by 5 cm at least: waves and the sensor. */
const UNDER_FRACTION = 0.25;
const MIN_UNDER_M = 0.05;
/** Longer than a motor waits between two tries. */
const REST_MINUTES = 15;
/** 5 % of range, 60 s: the alarm standards' starting values for a level (from memory). */
const DEADBAND_FRACTION = 0.05;

export const storeLow: Watch = {
  alarm: 'store-low',
  scope: 'well',
  triggers: ['minute', 'day'],
  onDelayS: 60,
  offDelayS: HOUR_S,
  evaluate,
};

function evaluate(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  return scene.trigger === 'day' ? closeDay(memo) : evaluateMinute(scene, memo);
}

/** A day on which it stood low teaches nothing. */
function closeDay(memo: WatchMemory): undefined {
  const low = memoryNumber(memo, 'dayLow', NaN);
  if (Number.isFinite(low) && memo['sinceMs'] === undefined) {
    memo['lows'] = [...memoryList(memo, 'lows'), low].slice(-WINDOW_DAYS);
    memo['highs'] = [...memoryList(memo, 'highs'), memoryNumber(memo, 'dayHigh', low)].slice(-WINDOW_DAYS);
  }
  delete memo['dayLow'];
  delete memo['dayHigh'];
  return undefined;
}

function evaluateMinute(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  const minute = lastMinute(scene);
  const store = minute?.storeM;
  if (!minute || !store) return undefined;
  memo['dayLow'] = roundTo(Math.min(memoryNumber(memo, 'dayLow', store.low), store.low), 3);
  memo['dayHigh'] = roundTo(Math.max(memoryNumber(memo, 'dayHigh', store.high), store.high), 3);
  const lows = memoryList(memo, 'lows');
  if (lows.length < MIN_DAYS) return undefined;
  const lowest = Math.min(...lows);
  const range = Math.max(...memoryList(memo, 'highs')) - lowest;
  const limit = Math.max(lowest - Math.max(MIN_UNDER_M, UNDER_FRACTION * range), 0.3 * lowest);
  if (store.low > limit + Math.max(0.02, DEADBAND_FRACTION * range)) return clearActive(memo);
  if (store.high >= limit) return undefined;
  const sinceMs = activeSince(memo, minute.atMs - MINUTE_MS);
  return {
    sinceMs,
    why: `The store stands at ${formatLength(store.mean)}; in the last ${lows.length} days it never went under ${formatLength(lowest)}.`,
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

/** A float calls for the pump long before the store is lower than ever: one that rests all the while was not called, or does not answer. */
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
