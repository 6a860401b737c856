/** What happens at each whole UTC minute: silence is noticed, the minute's picture is closed, the day may turn, the watches look. */
import { pumpHeld, pumpMinute, pumpWaits } from '../cycles/pump.ts';
import { waterMinute } from '../hydraulics/water.ts';
import { correctionsAt, noteFullScales } from './channels.ts';
import { turnDay } from './days.ts';
import type { Emit } from './emit.ts';
import { look } from './look.ts';
import { closeMinute } from './minute.ts';
import { countHeard, pressureView } from './readings.ts';
import { waterSeen } from './run-water.ts';
import { countRan, passStep } from './runs.ts';
import { MINUTES_KEPT, type WellState } from './state.ts';
import { standsStill } from './teach.ts';

export function passMinute(well: WellState, minuteMs: number, emit: Emit): void {
  for (let at = 0; at < well.pumps.length; at++) {
    const pump = well.pumps[at]!;
    const pressure = pressureView(well, at);
    countHeard(well, at, minuteMs);
    if (pumpWaits(pump)) passStep(well, at, pumpHeld(pump, minuteMs, pressure), emit);
    passStep(well, at, pumpMinute(pump, minuteMs, pressure), emit);
    if (pump.run) {
      countRan(
        well,
        at,
        pump.run.startedMs,
        pump.edges.phase === 'maybe-rest' ? pump.edges.candidateMs : minuteMs,
      );
    }
  }
  well.waterScene = waterSeen(well, waterMinute(well.water, minuteMs));
  well.minutes.push(
    closeMinute(
      well.minute,
      minuteMs,
      well.records.map((record) => record.calls),
    ),
  );
  if (well.minutes.length > MINUTES_KEPT) well.minutes.shift();
  if (well.expected.length > 0) well.expected = well.expected.filter((e) => e.untilMs > minuteMs);
  well.inForce = correctionsAt(well, minuteMs);
  noteFullScales(well, minuteMs);
  if (well.day && standsStill(well)) well.day.stoodStill = true;
  turnDay(well, minuteMs, emit);
  for (let at = 0; at < well.pumps.length; at++)
    look(well, { why: 'minute', atMs: minuteMs, pump: at }, emit);
}
