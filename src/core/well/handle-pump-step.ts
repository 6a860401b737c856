/**
 * What follows when a pump starts or a cycle is whole: the water is reckoned, the day counts it,
 * the baseline learns, the watches look, and the line is said.
 */
import { codeOf } from '../domain/channels.ts';
import type { CycleEvent } from '../../../shared/api/events.ts';
import { setAmpsAtMid } from '../baseline/comparable-amps.ts';
import { localHour } from '../baseline/habit.ts';
import { earliestConditionMs } from '../alarms/lifecycle/alarm-entry.ts';
import { learnCycle } from '../baseline/learn.ts';
import { learnSupply, supplyFactorUncertainty, supplyFactor } from '../baseline/supply.ts';
import type { Cycle } from '../cycles/cycle.ts';
import type { PumpStep } from '../cycles/pump.ts';
import { upperMedian } from '../cycles/upper-median.ts';
import { findChannel } from './channels.ts';
import { addCycleToDay } from './open-day.ts';
import { emitPendingDays } from './close-day.ts';
import { formatTime, type Emit } from './emit.ts';
import { setRunEnergy, startRunEnergy } from './energy.ts';
import { evaluateWatches } from './evaluate-watches.ts';
import { calculateRunWater, startRunWater } from './run-water.ts';
import { appliesTo } from '../alarms/applies.ts';
import { MAX_CYCLES, type WellState } from './well-state.ts';
import { canLearn } from './learn-from-day.ts';

/** A run that ends this far under its own usual cut-out did not reach it: 3 psi. */
const SHORT_OF_CUT_OUT_KPA = 21;
const MIN_CYCLES_FOR_NORMAL = 5;
const VOLTS_HOLD_MS = 90_000;

export function handlePumpStep(well: WellState, at: number, step: PumpStep, emit: Emit): void {
  switch (step.is) {
    case 'none':
      return;
    case 'started':
      well.records[at]!.startsToday++;
      startRunWater(well, at, step.startedMs);
      startRunEnergy(well, at, step.startedMs);
      return;
    case 'cycle':
      handleCycle(well, at, step.cycle, emit);
      return;
    default:
      step satisfies never;
  }
}

function handleCycle(well: WellState, at: number, cycle: Cycle, emit: Emit): void {
  calculateRunWater(well, at, cycle);
  setRunEnergy(well, at, cycle);
  if (missesCutOut(well, at, cycle)) cycle.flags.push('no-cut-out');
  const record = well.records[at]!;
  correctForSupply(well, at, cycle);
  if (well.card.pumps[at]?.control === 'constant-pressure-valve') cycle.throttled = true;
  setAmpsAtMid(cycle, record.baseline);
  const { shape: _shape, ...cycleWithoutShape } = cycle;
  record.cycles.push(cycleWithoutShape);
  if (record.cycles.length > MAX_CYCLES) record.cycles.shift();
  addRunTime(well, at, cycle.startedMs, cycle.stoppedMs);
  const day = dayOf(well, cycle.startedMs);
  if (day) addCycleToDay(day, cycle);
  if (canLearn(well)) {
    const hour = day && localHour(day, cycle.startedMs);
    const isUnderAlarm = earliestConditionMs(well.alarms, well.card.pumps[at]!.id) !== undefined;
    learnCycle(record.learning, cycle, record.baseline, { hour, isUnderAlarm });
  }
  emit({ event: cycleEvent(well, cycle), orderMs: cycle.stoppedMs, cycle });
  evaluateWatches(well, { trigger: 'cycle', atMs: well.nowMs, pump: at, cycle: cycleWithoutShape }, emit);
  emitPendingDays(well, emit);
}

/**
 * Brings the run to the usual supply, where voltage is measured, and learns from it what the supply
 * does.
 */
function correctForSupply(well: WellState, at: number, cycle: Cycle): void {
  const { supply } = well.records[at]!;
  const volts = cycle.volts ?? heldVolts(well, at, cycle.stoppedMs);
  if (volts === undefined) return;
  cycle.volts = volts;
  if (canLearn(well) && !cycle.flags.some((flag) => flag === 'failed-start' || flag === 'merged'))
    learnSupply(supply, cycle);
  cycle.toNormalVolts = roundToTenThousandth(supplyFactor(supply, volts));
  cycle.voltsUncertainty = roundToTenThousandth(supplyFactorUncertainty(supply, volts));
}

/** By exception a voltage holds until the next one: 90 s at most. */
function heldVolts(well: WellState, at: number, tMs: number): number | undefined {
  const channel = findChannel(well, codeOf('voltage', at)) ?? findChannel(well, codeOf('voltage'));
  return channel && channel.lastMs >= 0 && tMs - channel.lastMs <= VOLTS_HOLD_MS ? channel.value : undefined;
}

function roundToTenThousandth(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

function missesCutOut(well: WellState, at: number, cycle: Cycle): boolean {
  if (!appliesTo('cut-out-not-reached', well.card.pumps[at]!) || cycle.cutOutKpa === undefined) return false;
  const cutOutsKpa = well.records[at]!.cycles.map((c) => c.cutOutKpa).filter((kpa) => kpa !== undefined);
  if (cutOutsKpa.length < MIN_CYCLES_FOR_NORMAL) return false;
  return cycle.cutOutKpa < upperMedian(cutOutsKpa) - SHORT_OF_CUT_OUT_KPA;
}

/** Counts running time into the minute, once. */
export function addRunTime(well: WellState, at: number, startedMs: number, untilMs: number): void {
  const record = well.records[at]!;
  const fromMs = Math.max(startedMs, record.ranUntilMs);
  if (untilMs <= fromMs) return;
  well.minuteSums.pumps[at]!.ranMs += untilMs - fromMs;
  record.ranUntilMs = untilMs;
}

function dayOf(well: WellState, tMs: number): WellState['day'] {
  const days = well.day ? [...well.pendingDays, well.day] : well.pendingDays;
  const own = days.find((day) => tMs >= day.startMs && tMs < day.endMs);
  // A run that began before the first day was opened belongs to it: nothing earlier is known. One
  // whose day was said already, since it ran on for a day, belongs to none.
  const first = well.days.length === 0 && tMs < (days[0]?.startMs ?? tMs) ? days[0] : undefined;
  return own ?? first;
}

function cycleEvent(well: WellState, cycle: Cycle): CycleEvent {
  const {
    pump,
    startedMs,
    stoppedMs,
    ranS,
    flags,
    shape: _shape,
    readings: _readings,
    ampsAtMid: _mid,
    throttled: _throttled,
    startS: _startS,
    longStart: _longStart,
    volts: _volts,
    toNormalVolts: _toNormalVolts,
    voltsUncertainty: _voltsUncertainty,
    loadLoss: _loadLoss,
    ...numbers
  } = cycle;
  return {
    event: 'cycle',
    well: well.card.well,
    pump: well.card.pumps[pump]?.id ?? `p${pump + 1}`,
    started: formatTime(startedMs),
    stopped: formatTime(stoppedMs),
    ranS,
    ...numbers,
    flags,
  };
}
