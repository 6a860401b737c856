/**
 * Local days of a well while they fill. A cycle belongs to the day of its start, so a day is said
 * only when no run that began in it goes on, or 24 h after its end at the latest.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import type { AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { newTally, addToTally, tallyMedian, type Tally } from '../cycles/weighted-median.ts';
import type { LocalDay } from './local-day.ts';

export interface DayPump {
  cycles: number;
  ranMs: number;
  heardMs: number;
  amps: Tally;
}

export interface WellDayWater {
  usedL?: number;
  leakLPerDay?: number;
}

export interface OpenDay extends LocalDay {
  pumps: DayPump[];
  /** Set when the day is over. */
  water?: WellDayWater | undefined;
  /** Kinds of alarm that stood at any time of it. */
  alarmsActive: AlarmKind[];
  /**
   * The well was laid up or out of service for some of it: such a day is no measure of any other.
   */
  wasOnHold?: true | undefined;
}

export const MAX_WAIT_MS = DAY_MS;

/** Every field is named and none is spread: each day then has the shape of the one before. */
export function newOpenDay(
  { date, startMs, endMs }: LocalDay,
  pumps: number,
  activeKinds: AlarmKind[],
): OpenDay {
  return {
    date,
    startMs,
    endMs,
    alarmsActive: activeKinds,
    pumps: Array.from({ length: pumps }, newDayPump),
    water: undefined,
    wasOnHold: undefined,
  };
}

function newDayPump(): DayPump {
  return { cycles: 0, ranMs: 0, heardMs: 0, amps: newTally() };
}

/** The card names further pumps while the day runs. */
export function addDayPumps(day: OpenDay, pumps: number): void {
  while (day.pumps.length < pumps) day.pumps.push(newDayPump());
}

export function addCycleToDay(day: OpenDay, cycle: Cycle): void {
  const pump = day.pumps[cycle.pump];
  if (!pump) return;
  pump.cycles++;
  pump.ranMs += cycle.stoppedMs - cycle.startedMs;
  if (cycle.amps !== undefined && !cycle.flags.includes('failed-start')) addToTally(pump.amps, cycle.amps, 1);
}

/**
 * The day's lines: one for a well with one pump; one a pump and one for the water where it has
 * several.
 */
export function dayEvents(well: string, day: OpenDay, pumpIds: string[]): DayEvent[] {
  const { date, water = {} } = day;
  const events = day.pumps.map((pump): DayEvent => {
    const amps = tallyMedian(pump.amps);
    return {
      event: 'day',
      well,
      date,
      // What was not heard is not known: no cycles counted is not the same as none.
      ...(pump.heardMs > 0 || pump.cycles > 0
        ? { cycles: pump.cycles, ranS: Math.round(pump.ranMs) / 1000 }
        : {}),
      heardS: Math.round(pump.heardMs) / 1000,
      ...(amps === undefined ? {} : { ampsMedian: amps }),
    };
  });
  if (events.length === 1) return [{ ...events[0]!, ...water }];
  const each = events.map((line, at): DayEvent => {
    const { event, ...rest } = line;
    return { event, ...rest, pump: pumpIds[at] ?? `p${at + 1}` };
  });
  return [{ event: 'day', well, date, ...water }, ...each];
}
