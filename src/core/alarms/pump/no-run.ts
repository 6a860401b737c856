/**
 * The runs that this well always makes do not come. Only where nothing better can tell: a float or
 * timer that fills a store, or a well without pressure. How long is too long comes from the longest
 * rest that it had twice, and for what does not go away (stock, a timer) from the hours by which
 * runs have always come; a house stands empty for a week now and then, stock drinks every day.
 */
import { HOUR_MS, HOUR_S } from '../../../../shared/units/duration.ts';
import { minStartHours, localHour } from '../../baseline/habit.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { peersOf } from '../pump-peers.ts';
import { isAfterReset, lastMinute, usesPressure } from '../scene-queries.ts';
import { missedTurn } from './missed-turn.ts';
import { roundTo } from '../round.ts';
import type { Scene, Watch } from '../scene.ts';
import { weighCauses } from '../weigh-causes.ts';

/** Times the longest rest as learnt, and at least so much over it. */
const STOCK_LIMIT = { times: 2, overS: 4 * HOUR_S };
const STORE_LIMIT = { times: 2, overS: 24 * HOUR_S };
/** One dark day between two nights: solar pumps are given stores of some days (common practice). */
const SOLAR_LIMIT = { times: 3, overS: 30 * HOUR_S };
const HOUSE_LIMIT = { times: 3, overS: 8 * 24 * HOUR_S };
/**
 * By hour of day, once two weeks are known, and after the longest rest. Stock: since the pump
 * stopped there have gone by hours in which, on the quietest of those days, runs began in four. A
 * timer: two hours in which one began on each of those days, and one more, since it knows no summer
 * time; one run alone may be missed because the store was full, or somebody stood at the switch.
 */
const MIN_HABIT_DAYS = 14;
const MIN_STOCK_HOURS = 4;
const MIN_TIMER_HOURS = 2;
const TIMER_MARGIN_H = 1;
/** Starts of a float of which the store's depth is remembered. */
const STORE_STARTS = 5;

interface NoRunMemory {
  /**
   * At which depths of the store its float last started the pump, m, and when the last of these
   * runs began.
   */
  onM: number[];
  runMs?: number;
}

export const noRun: Watch<NoRunMemory> = {
  alarm: 'no-run',
  scope: 'pump',
  triggers: ['minute'],
  initialMemory: () => ({ onM: [] }),
  evaluate,
};

function evaluate(scene: Scene, memory: NoRunMemory): Evaluation {
  const { pump } = scene;
  recordStoreLevel(scene, memory);
  if (pump.run) return CLEAR;
  const missed = missedTurn(scene);
  if (missed.is === 'active') return missed;
  // Where others do the same work, water comes from them: only its turn can be missed.
  const stoppedMs = pump.restSinceMs ?? 0;
  if (peersOf(scene).some((other) => other.run || other.cycles.some((c) => c.startedMs > stoppedMs)))
    return missed;
  if (isStoreFull(scene, memory)) return CLEAR;
  const minute = lastMinute(scene);
  const longest = pump.baseline?.longestRestS;
  const sinceMs = pump.restSinceMs;
  if (!minute) return cannotTell('too-few-readings');
  if (usesPressure(pump) && minute.kpa) return cannotTell('better-measured');
  if ((minute.pumps[pump.index]?.heardS ?? 0) < 30) return cannotTell('needs-current');
  if (longest === undefined) return cannotTell('learning');
  if (sinceMs === undefined || !isAfterReset(scene, sinceMs)) return cannotTell('too-few-runs');
  const { uses } = scene.well.card;
  const stock = uses.includes('stock');
  const solar = pump.card.drive === 'solar';
  const allowed = solar
    ? SOLAR_LIMIT
    : stock
      ? STOCK_LIMIT
      : usesPressure(pump) || uses.includes('house')
        ? HOUSE_LIMIT
        : STORE_LIMIT;
  const expected = scene.well.expected !== undefined;
  const limitS = Math.max(allowed.times * longest, longest + allowed.overS) * (expected ? 2 : 1);
  const restedS = (scene.atMs - sinceMs) / 1000;
  if (restedS <= limitS) {
    const shouldReport = restedS > longest && !expected && !solar && isOverdue(scene, sinceMs);
    return shouldReport ? overdueFinding(scene, sinceMs, stock) : CLEAR;
  }
  return {
    is: 'active',
    sinceMs,
    priority: stock ? 'now' : 'soon',
    reason: 'rest-too-long',
    figures: { restedS, longestRestS: longest },
    evidence: { restedS: roundTo(restedS, 0), longestRestS: longest, limitS: roundTo(limitS, 0) },
    causes: causesOf(scene),
  };
}

/** At what depth of the store a float starts its pump: of its last starts. */
function recordStoreLevel(scene: Scene, memory: NoRunMemory): void {
  const store = lastMinute(scene)?.storeM;
  const { run, card } = scene.pump;
  if (card.control !== 'float' || !run || !store || memory.runMs === run.startedMs) return;
  memory.runMs = run.startedMs;
  memory.onM = [...memory.onM, roundTo(store.low, 3)].slice(-STORE_STARTS);
}

/** Measured to stand over where its float calls: nobody drank, and no run is due. */
function isStoreFull(scene: Scene, { onM }: NoRunMemory): boolean {
  const store = lastMinute(scene)?.storeM;
  return store !== undefined && onM.length === STORE_STARTS && store.mean > Math.max(...onM);
}

/** Have hours gone by, since the pump stopped, in which runs always come? */
function isOverdue(scene: Scene, sinceMs: number): boolean {
  const timer = scene.pump.card.control === 'timer';
  if (!timer && !scene.well.card.uses.includes('stock')) return false;
  const { dayStartedMs: startMs, dayEndsMs: endMs } = scene.well;
  const lateH = timer ? TIMER_MARGIN_H : 0;
  const hours = Math.floor((scene.atMs - sinceMs) / HOUR_MS) - 1 - lateH;
  if (hours < 1) return false;
  const fromHour = (localHour({ startMs, endMs }, sinceMs) + 1) % 24;
  const minHours = minStartHours(scene.pump.habit, { fromHour, hours, minDays: MIN_HABIT_DAYS });
  return minHours !== undefined && minHours >= (timer ? MIN_TIMER_HOURS : MIN_STOCK_HOURS);
}

function overdueFinding(scene: Scene, sinceMs: number, stock: boolean): Active {
  const restedS = (scene.atMs - sinceMs) / 1000;
  const days = scene.pump.habit.days.length;
  return {
    is: 'active',
    sinceMs,
    priority: stock ? 'now' : 'soon',
    reason: 'no-run-by-this-hour',
    figures: { restedS, days },
    evidence: { restedS: roundTo(restedS, 0), days },
    causes: causesOf(scene),
  };
}

function causesOf(scene: Scene): Active['causes'] {
  return weighCauses({
    'power-lost': 0.2,
    'breaker-open': 0.2,
    'failing-motor': 0.1,
    'overload-tripping': 0.1,
    'switch-out-of-set': usesPressure(scene.pump) ? 0.05 : 0.15,
    'habit-changed': 0.15,
    'clamp-off': 0.1,
  });
}
