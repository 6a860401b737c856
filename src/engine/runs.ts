/**
 * What follows when a pump starts or a cycle is whole: the water is reckoned, the day counts it, the baseline learns, the watches
 * look, and the line is said.
 */
import type { CycleEvent } from '../../shared/api/events.ts';
import { noteAmpsAtMid } from '../baseline/comparable.ts';
import { learnCycle } from '../baseline/learn.ts';
import type { Cycle } from '../cycles/cycle.ts';
import type { PumpStep } from '../cycles/pump.ts';
import { waterRunStarted, waterRunStopped } from '../hydraulics/water.ts';
import { dayCycle } from './day.ts';
import { sayWaitingDays } from './days.ts';
import { printTime, type Emit } from './emit.ts';
import { look } from './look.ts';
import { CYCLES_KEPT, type WellState } from './state.ts';

/** A run that ends this far under its own usual cut-out did not reach it: 3 psi. */
const SHORT_OF_CUT_OUT_KPA = 21;
const CYCLES_FOR_USUAL = 5;

export function passStep(well: WellState, at: number, step: PumpStep, emit: Emit): void {
  switch (step.is) {
    case 'none':
      return;
    case 'started':
      well.records[at]!.startsToday++;
      if (othersRunning(well, at) === 0) waterRunStarted(well.water, step.startedMs);
      return;
    case 'cycle':
      passCycle(well, at, step.cycle, emit);
      return;
    default:
      step satisfies never;
  }
}

function othersRunning(well: WellState, at: number): number {
  return well.pumps.filter((pump, other) => other !== at && pump.run).length;
}

function passCycle(well: WellState, at: number, cycle: Cycle, emit: Emit): void {
  reckonWater(well, at, cycle);
  if (missesCutOut(well, at, cycle)) cycle.flags.push('no-cut-out');
  const record = well.records[at]!;
  noteAmpsAtMid(cycle, record.baseline);
  const { shape: _shape, ...kept } = cycle;
  record.cycles.push(kept);
  if (record.cycles.length > CYCLES_KEPT) record.cycles.shift();
  countRan(well, at, cycle.startedMs, cycle.stoppedMs);
  const day = dayOf(well, cycle.startedMs);
  if (day) dayCycle(day, cycle);
  if (!well.visitOpen) learnCycle(record.learning, cycle, record.baseline);
  emit({ event: printCycle(well, cycle), orderMs: cycle.stoppedMs, cycle });
  look(well, { why: 'cycle', atMs: well.nowMs, pump: at, cycle: kept }, emit);
  sayWaitingDays(well, emit);
}

/** With two pumps at work nobody can tell whose water it was: litres are said of runs that were alone. */
function reckonWater(well: WellState, at: number, cycle: Cycle): void {
  if (othersRunning(well, at) > 0) return;
  const run = waterRunStopped(
    well.water,
    cycle.stoppedMs,
    cycle.amps === undefined ? {} : { amps: cycle.amps },
  );
  if (run.deliveredL !== undefined && wasAlone(well, at, cycle))
    cycle.deliveredL = Math.round(run.deliveredL * 100) / 100;
  if (run.deliveryShare !== undefined) well.waterScene.deliveryShare = run.deliveryShare;
}

function wasAlone(well: WellState, at: number, cycle: Cycle): boolean {
  return well.records.every(
    (record, other) => other === at || !record.cycles.some((c) => c.stoppedMs > cycle.startedMs),
  );
}

function missesCutOut(well: WellState, at: number, cycle: Cycle): boolean {
  if (well.card.pumps[at]?.control !== 'pressure-switch' || cycle.cutOutKpa === undefined) return false;
  const usual = well.records[at]!.cycles.map((c) => c.cutOutKpa).filter((kpa) => kpa !== undefined);
  if (usual.length < CYCLES_FOR_USUAL) return false;
  usual.sort((a, b) => a - b);
  return cycle.cutOutKpa < usual[usual.length >> 1]! - SHORT_OF_CUT_OUT_KPA;
}

/** Counts running time into the minute, once. */
export function countRan(well: WellState, at: number, startedMs: number, untilMs: number): void {
  const record = well.records[at]!;
  const fromMs = Math.max(startedMs, record.ranUntilMs);
  if (untilMs <= fromMs) return;
  well.minute.pumps[at]!.ranMs += untilMs - fromMs;
  record.ranUntilMs = untilMs;
}

function dayOf(well: WellState, tMs: number): WellState['day'] {
  const days = well.day ? [...well.waitingDays, well.day] : well.waitingDays;
  const own = days.find((day) => tMs >= day.startMs && tMs < day.endMs);
  // A run that began before the first day was opened belongs to it: nothing earlier is known. One whose day was said already, since
  // it ran on for a day, belongs to none.
  const first = well.days.length === 0 && tMs < (days[0]?.startMs ?? tMs) ? days[0] : undefined;
  return own ?? first;
}

function printCycle(well: WellState, cycle: Cycle): CycleEvent {
  const {
    pump,
    startedMs,
    stoppedMs,
    ranS,
    flags,
    shape: _shape,
    readings: _readings,
    ampsAtMid: _mid,
    ...numbers
  } = cycle;
  return {
    event: 'cycle',
    well: well.card.well,
    pump: well.card.pumps[pump]?.id ?? `p${pump + 1}`,
    started: printTime(startedMs),
    stopped: printTime(stoppedMs),
    ranS,
    ...numbers,
    flags,
  };
}
