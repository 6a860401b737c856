/**
 * What happens at each whole UTC minute: silence is noticed, the minute's picture is closed, the
 * day may turn, the watches look.
 */
import { advancePump, handlePumpMinute, hasPendingEdge } from '../cycles/pump.ts';
import { handleWaterMinute } from '../hydraulics/water.ts';
import { correctionsAt, updateFullScales } from './channels.ts';
import { advanceDay } from './close-day.ts';
import type { Emit } from './emit.ts';
import { evaluateWatches } from './evaluate-watches.ts';
import { closeMinute } from './minute-sums.ts';
import { addHeardTime, pressureView } from './handle-reading.ts';
import { waterSceneOf } from './run-water.ts';
import { addRunTime, handlePumpStep } from './handle-pump-step.ts';
import { MAX_MINUTES, type WellState } from './well-state.ts';
import { isOnHold } from './learn-from-day.ts';

export function handleMinute(well: WellState, minuteMs: number, emit: Emit): void {
  for (let at = 0; at < well.pumps.length; at++) {
    const pump = well.pumps[at]!;
    const pressure = pressureView(well, at);
    addHeardTime(well, at, minuteMs);
    if (hasPendingEdge(pump)) handlePumpStep(well, at, advancePump(pump, minuteMs, pressure), emit);
    handlePumpStep(well, at, handlePumpMinute(pump, minuteMs, pressure), emit);
    if (pump.run) {
      addRunTime(
        well,
        at,
        pump.run.startedMs,
        pump.edges.phase === 'pending-rest' ? pump.edges.candidateMs : minuteMs,
      );
    }
  }
  well.waterScene = waterSceneOf(well, handleWaterMinute(well.water, minuteMs));
  well.minutes.push(
    closeMinute(
      well.minuteSums,
      minuteMs,
      well.records.map((record) => record.callsForWater),
    ),
  );
  if (well.minutes.length > MAX_MINUTES) well.minutes.shift();
  if (well.expected.length > 0) well.expected = well.expected.filter((e) => e.untilMs > minuteMs);
  well.activeCorrections = correctionsAt(well, minuteMs);
  updateFullScales(well, minuteMs);
  if (well.day && isOnHold(well)) well.day.wasOnHold = true;
  advanceDay(well, minuteMs, emit);
  for (let at = 0; at < well.pumps.length; at++)
    evaluateWatches(well, { trigger: 'minute', atMs: minuteMs, pump: at }, emit);
}
