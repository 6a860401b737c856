/**
 * The whole line for one well, from reading to alarm: inputs in the order of their times go in,
 * cycles, days, baselines and alarms come out. No clock, no I/O: live, `replay` and tests call
 * these same functions. Each whole UTC minute is seen before any reading taken at or after it.
 */
import { MINUTE_MS } from '../../../shared/units/duration.ts';
import { applyAct, applyNodeNews } from './apply-act.ts';
import type { Segment, TimedInput } from './input.ts';
import { advanceDay } from './close-day.ts';
import { handleMinute } from './handle-minute.ts';
import type { Emit } from './emit.ts';
import { handleReading } from './handle-reading.ts';
import type { WellState } from './well-state.ts';

export { newWellState as newWell, type WellState } from './well-state.ts';
export type { Emit, Emitted } from './emit.ts';

/** Minutes begin with the first input, whatever it is. */
function startMinutes(well: WellState, tMs: number, emit: Emit): void {
  if (well.nextMinuteMs !== 0) return;
  well.nextMinuteMs = (Math.floor(tMs / MINUTE_MS) + 1) * MINUTE_MS;
  advanceDay(well, tMs, emit);
}

/** Time goes on to `untilMs`: every whole minute up to and including it is seen. */
export function advanceTo(well: WellState, untilMs: number, emit: Emit): void {
  if (well.nextMinuteMs === 0) return;
  while (well.nextMinuteMs <= untilMs) {
    const minuteMs = well.nextMinuteMs;
    well.nextMinuteMs += MINUTE_MS;
    well.nowMs = minuteMs;
    handleMinute(well, minuteMs, emit);
  }
  if (untilMs > well.nowMs) well.nowMs = untilMs;
}

/** Readings in order of time, none earlier than what the well has already passed. */
export function advance(well: WellState, segment: Segment, emit: Emit): void {
  const { n, timeMs, channel, value, fault } = segment;
  if (n === 0) return;
  startMinutes(well, timeMs[0]!, emit);
  for (let i = 0; i < n; i++) {
    const tMs = timeMs[i]!;
    if (tMs >= well.nextMinuteMs) advanceTo(well, tMs, emit);
    well.nowMs = tMs;
    handleReading(well, tMs, channel[i]!, value[i]!, fault[i]!, emit);
  }
}

/** One act of a person, or news of a node, in its place among the readings. */
export function applyInput(well: WellState, input: TimedInput, emit: Emit): void {
  // The first day is one of the card's own time zone.
  if (well.nextMinuteMs === 0 && 'act' in input && input.act.kind === 'card-changed') {
    well.card = { ...well.card, timeZone: input.act.card.timeZone };
  }
  startMinutes(well, input.atMs, emit);
  advanceTo(well, input.atMs, emit);
  if ('act' in input) applyAct(well, input.atMs, input.act, emit);
  else applyNodeNews(well, input.atMs, input.node);
}

/**
 * The well as bytes (UTF-8 JSON): loading them gives a well that goes on exactly as this one would.
 */
export function serializeWell(well: WellState): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(well));
}

/** Throws where the bytes are no saved well of this version. */
export function deserializeWell(bytes: Uint8Array): WellState {
  const well = JSON.parse(new TextDecoder().decode(bytes)) as WellState;
  if (well.version !== 6)
    throw new Error(`Cannot load well: version 6 is expected, found ${String(well.version)}`);
  return well;
}
