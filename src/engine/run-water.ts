/**
 * The water of runs and days of one well: by a flow meter where there is one, else by the tank's pressure where that can tell
 * (./feeds.ts). Two pumps at work at once raise one pressure: their litres are the well's, and of neither run is anything said.
 */
import type { Cycle } from '../cycles/cycle.ts';
import { goodForMs } from '../cycles/pace.ts';
import { waterDay, waterView, type WaterView } from '../hydraulics/water-view.ts';
import { waterPumpLeft, waterRunStarted, waterRunStopped } from '../hydraulics/water.ts';
import { channelOf } from './channels.ts';
import type { DayWater, OpenDay } from './day.ts';
import { feedsTank, isPressurePump, leakByPressure, litresByPressure } from './feeds.ts';
import { isBehindTank, litresAt, meterDay, meterReading, meterRun, newMeter } from './meter.ts';
import type { WellState } from './state.ts';

/** Place of the flow meter in a channel code (src/card/channels.ts). */
const FLOW = 7;
/**
 * A pump fills unseen while its current is not heard: a day's total may miss a twentieth of the day's time. Of the loss at rest it is enough
 * that most of the rest is known to have been one.
 */
const HEARD_FOR_TOTAL = 0.95;
const HEARD_FOR_LEAK = 0.5;

/** One reading of a pump's flow meter, m3/s. */
export function passFlow(well: WellState, at: number, tMs: number, m3PerS: number): void {
  const record = well.records[at];
  if (!record) return;
  record.meter ??= newMeter();
  const { pace } = channelOf(well, at * 16 + FLOW);
  meterReading(record.meter, tMs, m3PerS, { goodMs: goodForMs(pace), holds: pace.byException });
}

export function waterStarts(well: WellState, at: number, startedMs: number): void {
  const record = well.records[at]!;
  if (record.meter) record.meterStartL = litresAt(record.meter, startedMs);
  if (feedsTank(well, at)) waterRunStarted(well.water, startedMs, at);
}

function othersFeeding(well: WellState, at: number): number {
  return well.pumps.filter((pump, other) => other !== at && pump.run && feedsTank(well, other)).length;
}

/** A run is over: what it lifted is set on its cycle, where it can be told. */
export function reckonWater(well: WellState, at: number, cycle: Cycle): void {
  const record = well.records[at]!;
  const byMeter = record.meter && meterRun(record.meter, record.meterStartL, cycle.stoppedMs);
  const byPressure = feedsTank(well, at) ? tankRun(well, at, cycle) : undefined;
  const deliveredL = byMeter ?? byPressure;
  if (deliveredL !== undefined) cycle.deliveredL = Math.round(deliveredL * 100) / 100;
}

function tankRun(well: WellState, at: number, cycle: Cycle): number | undefined {
  if (othersFeeding(well, at) > 0) {
    waterPumpLeft(well.water, cycle.stoppedMs, at);
    return undefined;
  }
  const run = waterRunStopped(
    well.water,
    cycle.stoppedMs,
    cycle.amps === undefined ? {} : { amps: cycle.amps },
  );
  if (!litresByPressure(well)) return undefined;
  // Of a run that was another's too nothing is said of this pump's delivery.
  if (run.deliveryShare !== undefined && wasAlone(well, at, cycle))
    well.waterScene.deliveryShare = run.deliveryShare;
  return wasAlone(well, at, cycle) ? run.deliveredL : undefined;
}

function wasAlone(well: WellState, at: number, cycle: Cycle): boolean {
  return well.records.every(
    (record, other) =>
      other === at ||
      !feedsTank(well, other) ||
      !record.cycles.some((c) => c.stoppedMs > cycle.startedMs && c.startedMs < cycle.stoppedMs),
  );
}

/** What the watches see of the water. Behind a drive or a valve the rates of fills and falls say nothing of pump or tank. */
export function waterSeen(well: WellState, view: WaterView): WellState['waterScene'] {
  if (litresByPressure(well)) return view;
  const { deliveryShare: _share, airKpa: _air, dayLoss, ceaseless, ...rest } = view;
  if (!leakByPressure(well)) return rest;
  return { ...rest, ...(dayLoss && { dayLoss }), ...(ceaseless && { ceaseless }) };
}

/** Ends the day of the water. */
export function endWaterDay(well: WellState, day: OpenDay): DayWater {
  const { usedL, leakLPerDay } = waterDay(well.water, day.startMs, day.endMs);
  well.waterScene = waterSeen(well, waterView(well.water, day.endMs));
  const metered = meteredDay(well, day);
  const heard = heardShare(well, day);
  const used = metered ?? (litresByPressure(well) && heard >= HEARD_FOR_TOTAL ? usedL : undefined);
  return {
    ...(used !== undefined && { usedL: tenth(used) }),
    ...(leakLPerDay !== undefined &&
      leakByPressure(well) &&
      heard >= HEARD_FOR_LEAK && { leakLPerDay: tenth(leakLPerDay) }),
  };
}

/** Of the day the share in which the current of each pump that feeds the tank was heard, by the one heard least. */
function heardShare(well: WellState, day: OpenDay): number {
  const heard = day.pumps.flatMap((pump, at) => (feedsTank(well, at) ? [pump.heardMs] : []));
  return Math.min(...heard, day.endMs - day.startMs) / (day.endMs - day.startMs);
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/**
 * The day's water by meters: the sum over the pumps that serve the taps (those that fill a store where there are none), only where each of
 * them that ran has one; or by one that stands behind the tank, which counts for all.
 */
function meteredDay(well: WellState, day: OpenDay): number | undefined {
  const dayMs = day.endMs - day.startMs;
  const passed = well.records.map((record) => record.meter && meterDay(record.meter, dayMs));
  const behind = well.records.findIndex((record) => record.meter && isBehindTank(record.meter));
  if (behind >= 0) return passed[behind];
  const serving = well.card.pumps.some(isPressurePump);
  const mine = well.card.pumps.flatMap((pump, at) => (isPressurePump(pump) === serving ? [at] : []));
  const ran = mine.filter((at) => well.records[at]!.meter || (day.pumps[at]?.cycles ?? 0) > 0);
  if (ran.length === 0 || ran.some((at) => passed[at] === undefined)) return undefined;
  return ran.reduce((sum, at) => sum + passed[at]!, 0);
}
