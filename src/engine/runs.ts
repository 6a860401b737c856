/**
 * What follows when a pump starts or a cycle is whole: the water is reckoned, the day counts it, the baseline learns, the watches
 * look, and the line is said.
 */
import type { CycleEvent } from '../../shared/api/events.ts';
import { noteAmpsAtMid } from '../baseline/comparable.ts';
import { localHour } from '../baseline/habit.ts';
import { learnCycle } from '../baseline/learn.ts';
import { learnSupply, supplyDoubt, supplyFactor } from '../baseline/supply.ts';
import type { Cycle } from '../cycles/cycle.ts';
import type { PumpStep } from '../cycles/pump.ts';
import { knownChannel } from './channels.ts';
import { dayCycle } from './day.ts';
import { sayWaitingDays } from './days.ts';
import { printTime, type Emit } from './emit.ts';
import { look } from './look.ts';
import { reckonWater, waterStarts } from './run-water.ts';
import { appliesTo } from '../watch/applies.ts';
import { CYCLES_KEPT, type WellState } from './state.ts';
import { mayLearn } from './teach.ts';

/** A run that ends this far under its own usual cut-out did not reach it: 3 psi. */
const SHORT_OF_CUT_OUT_KPA = 21;
const CYCLES_FOR_USUAL = 5;
/** Place of the first phase's voltage in a channel code (src/card/channels.ts). */
const VOLTAGE = 4;
const VOLTS_HOLD_MS = 90_000;

export function passStep(well: WellState, at: number, step: PumpStep, emit: Emit): void {
  switch (step.is) {
    case 'none':
      return;
    case 'started':
      well.records[at]!.startsToday++;
      waterStarts(well, at, step.startedMs);
      return;
    case 'cycle':
      passCycle(well, at, step.cycle, emit);
      return;
    default:
      step satisfies never;
  }
}

function passCycle(well: WellState, at: number, cycle: Cycle, emit: Emit): void {
  reckonWater(well, at, cycle);
  if (missesCutOut(well, at, cycle)) cycle.flags.push('no-cut-out');
  const record = well.records[at]!;
  noteSupply(well, at, cycle);
  if (well.card.pumps[at]?.control === 'constant-pressure-valve') cycle.throttled = true;
  noteAmpsAtMid(cycle, record.baseline);
  const { shape: _shape, ...kept } = cycle;
  record.cycles.push(kept);
  if (record.cycles.length > CYCLES_KEPT) record.cycles.shift();
  countRan(well, at, cycle.startedMs, cycle.stoppedMs);
  const day = dayOf(well, cycle.startedMs);
  if (day) dayCycle(day, cycle);
  if (mayLearn(well)) {
    const hour = day && localHour(day, cycle.startedMs);
    learnCycle(record.learning, cycle, record.baseline, hour);
  }
  emit({ event: printCycle(well, cycle), orderMs: cycle.stoppedMs, cycle });
  look(well, { why: 'cycle', atMs: well.nowMs, pump: at, cycle: kept }, emit);
  sayWaitingDays(well, emit);
}

/** Brings the run to the usual supply, where voltage is measured, and learns from it what the supply does. */
function noteSupply(well: WellState, at: number, cycle: Cycle): void {
  const { supply } = well.records[at]!;
  const volts = cycle.volts ?? voltsHeld(well, at, cycle.stoppedMs);
  if (volts === undefined) return;
  cycle.volts = volts;
  if (mayLearn(well) && !cycle.flags.some((flag) => flag === 'failed-start' || flag === 'merged'))
    learnSupply(supply, cycle);
  cycle.toUsualVolts = tidy(supplyFactor(supply, volts));
  cycle.voltsDoubt = tidy(supplyDoubt(supply, volts));
}

/** By exception a voltage holds until the next one: 90 s at most. */
function voltsHeld(well: WellState, at: number, tMs: number): number | undefined {
  const channel = knownChannel(well, (at << 4) + VOLTAGE) ?? knownChannel(well, VOLTAGE);
  return channel && channel.lastMs >= 0 && tMs - channel.lastMs <= VOLTS_HOLD_MS ? channel.value : undefined;
}

function tidy(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

function missesCutOut(well: WellState, at: number, cycle: Cycle): boolean {
  if (!appliesTo('cut-out-not-reached', well.card.pumps[at]!.control) || cycle.cutOutKpa === undefined)
    return false;
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
    throttled: _throttled,
    startS: _startS,
    longStart: _longStart,
    volts: _volts,
    toUsualVolts: _toUsualVolts,
    voltsDoubt: _voltsDoubt,
    broke: _broke,
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
