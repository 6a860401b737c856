/**
 * The whole line for one well, from reading to alarm: inputs in the order of their times go in, cycles, days, baselines and alarms
 * come out. No clock, no I/O: live, `replay` and tests call these same functions. Each whole UTC minute is seen before any
 * reading taken at or after it.
 */
import { takeAct, takeNews } from './acts.ts';
import type { Stretch, TimedInput } from './input.ts';
import { turnDay } from './days.ts';
import { passMinute } from './minutes.ts';
import type { Emit } from './emit.ts';
import { passReading } from './readings.ts';
import type { WellState } from './state.ts';

export { newWell, type WellState } from './state.ts';
export type { Emit, Emitted } from './emit.ts';

const MINUTE_MS = 60_000;

/** Minutes begin with the first input, whatever it is. */
function wake(well: WellState, tMs: number, emit: Emit): void {
  if (well.nextMinuteMs !== 0) return;
  well.nextMinuteMs = (Math.floor(tMs / MINUTE_MS) + 1) * MINUTE_MS;
  turnDay(well, tMs, emit);
}

/** Time goes on to `untilMs`: every whole minute up to and including it is seen. */
export function passTo(well: WellState, untilMs: number, emit: Emit): void {
  if (well.nextMinuteMs === 0) return;
  while (well.nextMinuteMs <= untilMs) {
    const minuteMs = well.nextMinuteMs;
    well.nextMinuteMs += MINUTE_MS;
    well.nowMs = minuteMs;
    passMinute(well, minuteMs, emit);
  }
  if (untilMs > well.nowMs) well.nowMs = untilMs;
}

/** Readings in order of time, none earlier than what the well has already passed. */
export function advance(well: WellState, stretch: Stretch, emit: Emit): void {
  const { n, timeMs, channel, value, fault } = stretch;
  if (n === 0) return;
  wake(well, timeMs[0]!, emit);
  for (let i = 0; i < n; i++) {
    const tMs = timeMs[i]!;
    if (tMs >= well.nextMinuteMs) passTo(well, tMs, emit);
    well.nowMs = tMs;
    passReading(well, tMs, channel[i]!, value[i]!, fault[i]!, emit);
  }
}

/** One act of a person, or news of a node, in its place among the readings. */
export function take(well: WellState, input: TimedInput, emit: Emit): void {
  // The first day is one of the card's own time zone.
  if (well.nextMinuteMs === 0 && 'act' in input && input.act.kind === 'card-changed') {
    well.card = { ...well.card, timeZone: input.act.card.timeZone };
  }
  wake(well, input.atMs, emit);
  passTo(well, input.atMs, emit);
  if ('act' in input) takeAct(well, input.atMs, input.act, emit);
  else takeNews(well, input.atMs, input.node);
}

/** The well as bytes (UTF-8 JSON): loading them gives a well that goes on exactly as this one would. */
export function saveWell(well: WellState): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(well));
}

/** Throws where the bytes are no saved well of this version. */
export function loadWell(bytes: Uint8Array): WellState {
  const well = JSON.parse(new TextDecoder().decode(bytes)) as WellState;
  if (well.version !== 1)
    throw new Error(`Cannot load well: version 1 is expected, found ${String(well.version)}`);
  return well;
}
