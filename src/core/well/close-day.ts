/**
 * Turning the local day: it is closed at its last minute, said when no run that began in it goes
 * on, and taught to the baseline.
 */
import { DAY_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import { standingKinds } from '../alarms/lifecycle/alarms.ts';
import { MAX_WAIT_MS, dayEvents, newOpenDay, type OpenDay } from './open-day.ts';
import type { Emit } from './emit.ts';
import { localDayAt } from './local-day.ts';
import { evaluateWatches } from './evaluate-watches.ts';
import { closeWaterDay } from './run-water.ts';
import { learnFromDay } from './learn-from-day.ts';
import { MAX_DAYS, type WellState } from './well-state.ts';

/** Opens the day at `tMs`; closes the one before where it is over. */
export function advanceDay(well: WellState, tMs: number, emit: Emit): void {
  if (well.day && tMs < well.day.endMs) return;
  if (well.day) {
    well.day.water = closeWaterDay(well, well.day);
    well.pendingDays.push(well.day);
    for (const record of well.records) record.startsToday = 0;
  }
  well.day = newOpenDay(localDayAt(tMs, well.card.timeZone), well.card.pumps.length, activeKindsNow(well));
  emitPendingDays(well, emit);
}

/** Kinds of alarm that stand as the day begins, of any pump. */
function activeKindsNow(well: WellState): OpenDay['alarmsActive'] {
  return [...new Set(well.card.pumps.flatMap((pump) => standingKinds(well.alarms, pump.id)))];
}

/** Says the days that wait for no run any more, oldest first. */
export function emitPendingDays(well: WellState, emit: Emit): void {
  while (well.pendingDays.length > 0) {
    const day = well.pendingDays[0]!;
    const awaited = well.pumps.some((pump) => pump.run && pump.run.startedMs < day.endMs);
    if (awaited && well.nowMs < day.endMs + MAX_WAIT_MS - MINUTE_MS) return;
    well.pendingDays.shift();
    emitDay(well, day, emit);
  }
}

function emitDay(well: WellState, day: OpenDay, emit: Emit): void {
  const events = dayEvents(
    well.card.well,
    day,
    well.card.pumps.map((pump) => pump.id),
  );
  for (const event of events) {
    emit({ event, orderMs: day.endMs });
    well.days.push(event);
  }
  const oldestMs = Date.parse(day.date) - (MAX_DAYS - 1) * DAY_MS;
  while (Date.parse(well.days[0]!.date) < oldestMs) well.days.shift();
  const dayS = (day.endMs - day.startMs) / 1000;
  for (const [at] of well.pumps.entries()) {
    const pumpEvent = events.length === 1 ? events[0]! : events[at + 1]!;
    learnFromDay(well, at, pumpEvent, day, emit);
    evaluateWatches(well, { trigger: 'day', atMs: well.nowMs, pump: at, day: pumpEvent, dayS }, emit);
  }
}
