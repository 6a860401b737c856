/** Turning the local day: it is closed at its last minute, said when no run that began in it goes on, and taught to the baseline. */
import { standingKinds } from '../alarm/alarms.ts';
import { LONGEST_WAIT_MS, dayEvents, newDay, type OpenDay } from './day.ts';
import type { Emit } from './emit.ts';
import { localDayAt } from './local-day.ts';
import { look } from './look.ts';
import { endWaterDay } from './run-water.ts';
import { teach } from './teach.ts';
import { DAYS_KEPT, type WellState } from './state.ts';

const DAY_MS = 86_400_000;

/** Opens the day at `tMs`; closes the one before where it is over. */
export function turnDay(well: WellState, tMs: number, emit: Emit): void {
  if (well.day && tMs < well.day.endMs) return;
  if (well.day) {
    well.day.water = endWaterDay(well, well.day);
    well.waitingDays.push(well.day);
    for (const record of well.records) record.startsToday = 0;
  }
  well.day = newDay(localDayAt(tMs, well.card.timeZone), well.card.pumps.length, standingNow(well));
  sayWaitingDays(well, emit);
}

/** Kinds of alarm that stand as the day begins, of any pump. */
function standingNow(well: WellState): OpenDay['stood'] {
  return [...new Set(well.card.pumps.flatMap((pump) => standingKinds(well.alarms, pump.id)))];
}

/** Says the days that wait for no run any more, oldest first. */
export function sayWaitingDays(well: WellState, emit: Emit): void {
  while (well.waitingDays.length > 0) {
    const day = well.waitingDays[0]!;
    const awaited = well.pumps.some((pump) => pump.run && pump.run.startedMs < day.endMs);
    if (awaited && well.nowMs < day.endMs + LONGEST_WAIT_MS - 60_000) return;
    well.waitingDays.shift();
    sayDay(well, day, emit);
  }
}

function sayDay(well: WellState, day: OpenDay, emit: Emit): void {
  const events = dayEvents(
    well.card.well,
    day,
    well.card.pumps.map((pump) => pump.id),
  );
  for (const event of events) {
    emit({ event, orderMs: day.endMs });
    well.days.push(event);
  }
  const oldestMs = Date.parse(day.date) - (DAYS_KEPT - 1) * DAY_MS;
  while (Date.parse(well.days[0]!.date) < oldestMs) well.days.shift();
  const dayS = (day.endMs - day.startMs) / 1000;
  for (const [at] of well.pumps.entries()) {
    const mine = events.length === 1 ? events[0]! : events[at + 1]!;
    teach(well, at, mine, day, emit);
    look(well, { why: 'day', atMs: well.nowMs, pump: at, day: mine, dayS }, emit);
  }
}
