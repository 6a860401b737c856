/**
 * Where each reading goes, by its channel: current to its pump, pressure to the trail, the pumps
 * and the water, the rest to the minute's picture.
 */
import { baseOf, codeOf, isStartCode, lineOf, pumpOf } from '../domain/channels.ts';
import { validForMs, newPace } from '../cycles/pace.ts';
import { isRunning, type PressureView } from '../cycles/pump-state.ts';
import {
  flagClipped,
  handlePumpCurrent,
  advancePump,
  handlePumpPressure,
  handlePumpVolts,
  hasPendingEdge,
} from '../cycles/pump.ts';
import { flagRun } from '../cycles/run.ts';
import { handleStartRecord } from '../cycles/start-record.ts';
import {
  addPressure,
  keepForSpans,
  newPressureBuffer,
  type PressureBuffer,
} from '../cycles/pressure-buffer.ts';
import { handleWaterGap, handleWaterReading } from '../hydraulics/water.ts';
import { faultOf, isClockStep } from '../readings/segment.ts';
import { channelFor, findChannel, recordFault, recordReading } from './channels.ts';
import type { Emit } from './emit.ts';
import { handlePower } from './energy.ts';
import { newStatsSums, statsAt, addToStats } from './minute-sums.ts';
import { handleFlow } from './run-water.ts';
import { handlePumpStep } from './handle-pump-step.ts';
import type { WellState } from './well-state.ts';

const PRESSURE = codeOf('pressure');
const FAULT_HIGH = 2;

/** Stands for the pace of a pressure that was never heard; nobody writes to it. */
const UNKNOWN_PACE = newPace();

/**
 * The pressure that a pump works against: its own where it has one (`p2/pressure`), else the whole
 * well's.
 */
export function pressureView(well: WellState, at: number): PressureView {
  const own = well.records[at]?.ownPressureBuffer;
  const code = own ? codeOf('pressure', at) : PRESSURE;
  return { buffer: own ?? well.pressureBuffer, pace: findChannel(well, code)?.pace ?? UNKNOWN_PACE };
}

/**
 * One reading in its place: `raw` in the contract's unit, `mark` a FaultCode and what a segment
 * adds to it (src/core/readings/segment.ts).
 */
export function handleReading(
  well: WellState,
  tMs: number,
  code: number,
  raw: number,
  mark: number,
  emit: Emit,
): void {
  const pump = pumpOf(code);
  const fault = faultOf(mark);
  if (isStartCode(code)) {
    // The record of a start serves the start alone: no channel of the well, no step of the clock.
    if (fault === 0 && well.pumps[pump]) handleStartRecord(well.pumps[pump], tMs, raw);
    return;
  }
  const channel = channelFor(well, code);
  if (isClockStep(mark)) handleClockStep(well, tMs);
  if (fault !== 0) {
    recordFault(channel, fault);
    if (fault === FAULT_HIGH) flagClippedPumps(well, code);
    return;
  }
  if (channel.fullScale !== undefined && raw >= channel.fullScale) flagClippedPumps(well, code);
  const correction = well.activeCorrections[code];
  const value = correction ? correction.gain * raw + correction.offset : raw;
  recordReading(channel, tMs, value);
  const base = baseOf(code);
  switch (base) {
    case 'current':
    case 'current-2':
    case 'current-3':
      setSpan(well, pump, channel.spanMs ?? 0);
      handleCurrent(well, pump, tMs, lineOf(code), value, emit);
      break;
    case 'pressure':
      if (pump === 0) handlePressure(well, tMs, value / 1000, emit);
      else handleOwnPressure(well, pump, tMs, value / 1000, emit);
      break;
    case 'voltage':
    case 'voltage-2':
    case 'voltage-3':
      handleVolts(well, pump, lineOf(code), value);
      break;
    case 'flow':
      handleFlow(well, pump, tMs, value);
      break;
    case 'level':
      addToStats(well.minuteSums.levelM, value);
      break;
    case 'store':
      addToStats(well.minuteSums.storeM, value);
      break;
    case 'contact':
      if (well.records[pump]) well.records[pump].callsForWater = value !== 0;
      break;
    case 'temperature':
      addToStats(well.minuteSums.temperatureC, value);
      break;
    case 'power':
      handlePower(well, pump, tMs, value);
      break;
    // Kept and shown; nothing is reckoned from it.
    case 'power-factor':
    case undefined:
      break;
    default:
      base satisfies never;
  }
}

/** How long a span each reading of a pump's current is the mean of. */
function setSpan(well: WellState, at: number, spanMs: number): void {
  const pump = well.pumps[at];
  if (!pump || pump.spanMs === spanMs) return;
  pump.spanMs = spanMs;
  if (spanMs > 0) keepForSpans(pressureView(well, at).buffer, spanMs);
}

/** Voltage is the whole well's unless it has a pump's prefix. */
function handleVolts(well: WellState, pump: number, phase: number, volts: number): void {
  const { pumps } = well.minuteSums;
  for (let at = 0; at < pumps.length; at++) {
    if (at !== pump && pump !== 0) continue;
    addToStats(statsAt(pumps[at]!.volts, phase), volts);
    handlePumpVolts(well.pumps[at]!, volts);
  }
}

/** The clock was overruled here: nothing is followed across, and a run that goes on says so. */
function handleClockStep(well: WellState, tMs: number): void {
  handleWaterGap(well.water, tMs);
  for (const pump of well.pumps) if (pump.run) flagRun(pump.run, 'clock-step');
}

function flagClippedPumps(well: WellState, code: number): void {
  for (const [at, pump] of well.pumps.entries()) {
    if (at === pumpOf(code) || (code === PRESSURE && !well.records[at]!.ownPressureBuffer)) flagClipped(pump);
  }
}

/** Counts the time that current readings cover, up to `tMs`, into the minute and the day. */
export function addHeardTime(well: WellState, pump: number, tMs: number): void {
  const { pace } = well.pumps[pump]!;
  const record = well.records[pump]!;
  if (pace.lastMs < 0) return;
  const fromMs = Math.max(record.heardUntilMs, pace.lastMs);
  const untilMs = Math.min(tMs, pace.lastMs + validForMs(pace));
  if (untilMs <= fromMs) return;
  record.heardUntilMs = untilMs;
  well.minuteSums.pumps[pump]!.heardMs += untilMs - fromMs;
  const day = well.day?.pumps[pump];
  if (day) day.heardMs += untilMs - fromMs;
}

function handleCurrent(
  well: WellState,
  at: number,
  tMs: number,
  leg: number,
  amps: number,
  emit: Emit,
): void {
  const pump = well.pumps[at];
  if (!pump) return;
  if (leg === 0) addHeardTime(well, at, tMs);
  const step = handlePumpCurrent(pump, tMs, leg, amps, pressureView(well, at));
  if (step.is !== 'none') handlePumpStep(well, at, step, emit);
  const sums = well.minuteSums.pumps[at]!;
  const { spanMs = 0, wholeMeanAmps } = pump;
  if (isRunning(pump)) {
    const counted = spanMs > 0 ? wholeMeanAmps : amps;
    if (counted !== undefined) addToStats(statsAt(sums.running, leg), counted);
  } else if (leg === 0) addToStats(sums.resting, amps);
}

function handlePressure(well: WellState, tMs: number, kpa: number, emit: Emit): void {
  addPressure(well.pressureBuffer, tMs, kpa);
  addToStats(well.minuteSums.kpa, kpa);
  for (let at = 0; at < well.pumps.length; at++) {
    if (!well.records[at]!.ownPressureBuffer)
      updatePumpPressure(well, at, tMs, kpa, well.pressureBuffer, emit);
  }
  handleWaterReading(well.water, tMs, kpa);
}

/**
 * `p2/pressure` and the like are that pump's alone: neither the tank's water nor another pump's
 * points are read from it.
 */
function handleOwnPressure(well: WellState, at: number, tMs: number, kpa: number, emit: Emit): void {
  const record = well.records[at];
  if (!record) return;
  const trail = (record.ownPressureBuffer ??= newPressureBuffer());
  addPressure(trail, tMs, kpa);
  addToStats((well.minuteSums.pumps[at]!.kpa ??= newStatsSums()), kpa);
  updatePumpPressure(well, at, tMs, kpa, trail, emit);
}

function updatePumpPressure(
  well: WellState,
  at: number,
  tMs: number,
  kpa: number,
  trail: PressureBuffer,
  emit: Emit,
): void {
  const pump = well.pumps[at]!;
  if (hasPendingEdge(pump)) {
    const step = advancePump(pump, tMs, pressureView(well, at));
    if (step.is !== 'none') handlePumpStep(well, at, step, emit);
  }
  handlePumpPressure(pump, tMs, kpa, trail);
}
