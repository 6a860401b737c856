/**
 * The store or trough is lower than it ever is. How low it goes when all is well is learnt from the lowest of each day; a float
 * that fills late now and then is part of it.
 */
import { lastMinute, lastMinutes, listOf, numberOf, standingSince, standsNot } from './facts.ts';
import { sayLength, tidy } from './say.ts';
import type { Finding, Memo, Scene, Watch } from './scene.ts';
import { weigh } from './weigh.ts';

const DAYS = 14;
const LEAST_DAYS = 4;
/** Under the lowest day by this share of what the store usually moves through, and by 5 cm at least: waves and the sensor. */
const UNDER_SHARE = 0.25;
const UNDER_M = 0.05;
/** Longer than a motor waits between two tries. */
const RESTS_MINUTES = 15;
/** 5 % of range, 60 s: the alarm standards' starting values for a level (from memory). */
const DEADBAND_SHARE = 0.05;

export const storeLow: Watch = {
  alarm: 'store-low',
  each: 'well',
  on: ['minute', 'day'],
  onDelayS: 60,
  offDelayS: 3600,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  return scene.why === 'day' ? endDay(memo) : inMinute(scene, memo);
}

/** A day on which it stood low teaches nothing. */
function endDay(memo: Memo): undefined {
  const low = numberOf(memo, 'dayLow', NaN);
  if (Number.isFinite(low) && memo['sinceMs'] === undefined) {
    memo['lows'] = [...listOf(memo, 'lows'), low].slice(-DAYS);
    memo['highs'] = [...listOf(memo, 'highs'), numberOf(memo, 'dayHigh', low)].slice(-DAYS);
  }
  delete memo['dayLow'];
  delete memo['dayHigh'];
  return undefined;
}

function inMinute(scene: Scene, memo: Memo): Finding | null | undefined {
  const minute = lastMinute(scene);
  const store = minute?.storeM;
  if (!minute || !store) return undefined;
  memo['dayLow'] = tidy(Math.min(numberOf(memo, 'dayLow', store.low), store.low), 3);
  memo['dayHigh'] = tidy(Math.max(numberOf(memo, 'dayHigh', store.high), store.high), 3);
  const lows = listOf(memo, 'lows');
  if (lows.length < LEAST_DAYS) return undefined;
  const lowest = Math.min(...lows);
  const range = Math.max(...listOf(memo, 'highs')) - lowest;
  const limit = Math.max(lowest - Math.max(UNDER_M, UNDER_SHARE * range), 0.3 * lowest);
  if (store.low > limit + Math.max(0.02, DEADBAND_SHARE * range)) return standsNot(memo);
  if (store.high >= limit) return undefined;
  const sinceMs = standingSince(memo, minute.atMs - 60_000);
  return {
    sinceMs,
    why: `The store stands at ${sayLength(store.mean)}; in the last ${lows.length} days it never went under ${sayLength(lowest)}.`,
    evidence: { storeM: tidy(store.mean), lowestM: tidy(lowest), limitM: tidy(limit) },
    causes: rests(scene)
      ? weigh({
          'power-lost': 0.25,
          'breaker-open': 0.25,
          'switch-out-of-set': 0.2,
          'overload-tripping': 0.1,
          'failing-motor': 0.1,
          leak: 0.05,
        })
      : weigh({
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
function rests(scene: Scene): boolean {
  const minutes = lastMinutes(scene, RESTS_MINUTES);
  const floats = scene.pumps.filter(({ card }) => card.control === 'float');
  return (
    floats.length > 0 &&
    minutes !== undefined &&
    minutes.every(({ pumps }) =>
      floats.every(({ index }) => pumps[index]?.ranS === 0 && (pumps[index]?.heardS ?? 0) > 30),
    )
  );
}
