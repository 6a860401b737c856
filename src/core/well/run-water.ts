/**
 * The water of runs and days of one well: by a flow meter where there is one, else by the tank's
 * pressure where that can tell (./tank-feeds.ts). Two pumps at work at once raise one pressure:
 * their litres are the well's, and of neither run is anything said.
 */
import { codeOf } from '../domain/channels.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { validForMs } from '../cycles/pace.ts';
import { closeTankDay, waterView, type WaterView } from '../hydraulics/water-view.ts';
import { handleWaterPumpStopped, handleWaterRunStarted, handleWaterRunStopped } from '../hydraulics/water.ts';
import { channelFor } from './channels.ts';
import type { WellDayWater, OpenDay } from './open-day.ts';
import { feedsTank, isPressurePump, leakFromPressure, litersFromPressure } from './tank-feeds.ts';
import { isBehindTank, litersAt, closeMeterDay, addMeterReading, closeMeterRun, newMeter } from './meter.ts';
import type { WellState } from './well-state.ts';

/**
 * A pump fills unseen while its current is not heard: a day's total may miss a twentieth of the
 * day's time. Of the loss at rest it is enough that most of the rest is known to have been one.
 */
const MIN_HEARD_FOR_TOTAL = 0.95;
const MIN_HEARD_FOR_LEAK = 0.5;

/** One reading of a pump's flow meter, m3/s. */
export function handleFlow(well: WellState, at: number, tMs: number, m3PerS: number): void {
  const record = well.records[at];
  if (!record) return;
  record.meter ??= newMeter();
  const { pace, spanMs } = channelFor(well, codeOf('flow', at));
  addMeterReading(record.meter, tMs, m3PerS, {
    goodMs: validForMs(pace),
    covers: spanMs !== undefined ? 'before' : pace.byException ? 'after' : 'between',
  });
}

export function startRunWater(well: WellState, at: number, startedMs: number): void {
  const record = well.records[at]!;
  if (record.meter) record.meterStartL = litersAt(record.meter, startedMs);
  if (feedsTank(well, at)) handleWaterRunStarted(well.water, startedMs, at);
}

function countOthersFeeding(well: WellState, at: number): number {
  return well.pumps.filter((pump, other) => other !== at && pump.run && feedsTank(well, other)).length;
}

/** A run is over: what it lifted is set on its cycle, where it can be told. */
export function calculateRunWater(well: WellState, at: number, cycle: Cycle): void {
  const record = well.records[at]!;
  const byMeter = record.meter && closeMeterRun(record.meter, record.meterStartL, cycle.stoppedMs);
  const byPressure = feedsTank(well, at) ? tankRunL(well, at, cycle) : undefined;
  const deliveredL = byMeter ?? byPressure;
  if (deliveredL !== undefined) cycle.deliveredL = Math.round(deliveredL * 100) / 100;
}

function tankRunL(well: WellState, at: number, cycle: Cycle): number | undefined {
  if (countOthersFeeding(well, at) > 0) {
    handleWaterPumpStopped(well.water, cycle.stoppedMs, at);
    return undefined;
  }
  const run = handleWaterRunStopped(
    well.water,
    cycle.stoppedMs,
    cycle.amps === undefined ? {} : { amps: cycle.amps },
  );
  if (!litersFromPressure(well)) return undefined;
  // Of a run that was another's too nothing is said of this pump's delivery.
  if (run.deliveryRatio !== undefined && ranAlone(well, at, cycle))
    well.waterScene.deliveryRatio = run.deliveryRatio;
  return ranAlone(well, at, cycle) ? run.deliveredL : undefined;
}

function ranAlone(well: WellState, at: number, cycle: Cycle): boolean {
  return well.records.every(
    (record, other) =>
      other === at ||
      !feedsTank(well, other) ||
      !record.cycles.some((c) => c.stoppedMs > cycle.startedMs && c.startedMs < cycle.stoppedMs),
  );
}

/**
 * What the watches see of the water. Behind a drive or a valve the rates of fills and falls say
 * nothing of pump or tank.
 */
export function waterSceneOf(well: WellState, view: WaterView): WellState['waterScene'] {
  if (litersFromPressure(well)) return view;
  const { deliveryRatio: _share, prechargeKpa: _air, dayLoss, continuousLoss, ...rest } = view;
  if (!leakFromPressure(well)) return rest;
  return { ...rest, ...(dayLoss && { dayLoss }), ...(continuousLoss && { continuousLoss }) };
}

/** Ends the day of the water. */
export function closeWaterDay(well: WellState, day: OpenDay): WellDayWater {
  const { usedL, leakLPerDay } = closeTankDay(well.water, day.startMs, day.endMs);
  well.waterScene = waterSceneOf(well, waterView(well.water, day.endMs));
  const metered = meteredDayL(well, day);
  const heard = heardFraction(well, day);
  const used = metered ?? (litersFromPressure(well) && heard >= MIN_HEARD_FOR_TOTAL ? usedL : undefined);
  return {
    ...(used !== undefined && { usedL: roundToTenth(used) }),
    ...(leakLPerDay !== undefined &&
      leakFromPressure(well) &&
      heard >= MIN_HEARD_FOR_LEAK && { leakLPerDay: roundToTenth(leakLPerDay) }),
  };
}

/**
 * Of the day the share in which the current of each pump that feeds the tank was heard, by the one
 * heard least.
 */
function heardFraction(well: WellState, day: OpenDay): number {
  const heard = day.pumps.flatMap((pump, at) => (feedsTank(well, at) ? [pump.heardMs] : []));
  return Math.min(...heard, day.endMs - day.startMs) / (day.endMs - day.startMs);
}

function roundToTenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/**
 * The day's water by meters: the sum over the pumps that serve the taps (those that fill a store
 * where there are none), only where each of them that ran has one; or by one that stands behind the
 * tank, which counts for all.
 */
function meteredDayL(well: WellState, day: OpenDay): number | undefined {
  const dayMs = day.endMs - day.startMs;
  const passed = well.records.map((record) => record.meter && closeMeterDay(record.meter, dayMs));
  const behind = well.records.findIndex((record) => record.meter && isBehindTank(record.meter));
  if (behind >= 0) return passed[behind];
  const serving = well.card.pumps.some(isPressurePump);
  const counted = well.card.pumps.flatMap((pump, at) => (isPressurePump(pump) === serving ? [at] : []));
  const ran = counted.filter((at) => well.records[at]!.meter || (day.pumps[at]?.cycles ?? 0) > 0);
  if (ran.length === 0 || ran.some((at) => passed[at] === undefined)) return undefined;
  return ran.reduce((sum, at) => sum + passed[at]!, 0);
}
