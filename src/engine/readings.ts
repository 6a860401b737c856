/**
 * Where each reading goes, by its channel: current to its pump, pressure to the trail, the pumps and the water, the rest to the
 * minute's picture.
 */
import { goodForMs, newPace } from '../cycles/pace.ts';
import { isRunning, type PressureView } from '../cycles/pump-state.ts';
import { flagClipped, pumpCurrent, pumpHeld, pumpPressure, pumpVolts, pumpWaits } from '../cycles/pump.ts';
import { flagRun } from '../cycles/run.ts';
import { pumpStartRecord } from '../cycles/start-record.ts';
import { newTrail, trailReading, type Trail } from '../cycles/trail.ts';
import { waterGap, waterReading } from '../hydraulics/water.ts';
import { START_PLACE, STEP_BIT } from '../readings/stretch.ts';
import { channelOf, knownChannel, noteFault, noteGood } from './channels.ts';
import type { Emit } from './emit.ts';
import { newSpread, spreadAt, spreadReading } from './minute.ts';
import { passFlow } from './run-water.ts';
import { passStep } from './runs.ts';
import type { WellState } from './state.ts';

/** Places of the base channels in a channel code (src/card/channels.ts). */
const PRESSURE = 3;
const FAULT_HIGH = 2;

/** Stands for the pace of a pressure that was never heard; nobody writes to it. */
const NO_PACE = newPace();

/** The pressure that a pump works against: its own where it has one (`p2/pressure`), else the whole well's. */
export function pressureView(well: WellState, at: number): PressureView {
  const own = well.records[at]?.own;
  const code = own ? at * 16 + PRESSURE : PRESSURE;
  return { trail: own ?? well.trail, pace: knownChannel(well, code)?.pace ?? NO_PACE };
}

/** One reading in its place: `value` in the contract's unit, `fault` a FaultCode. */
export function passReading(
  well: WellState,
  tMs: number,
  code: number,
  raw: number,
  fault: number,
  emit: Emit,
): void {
  const pump = code >> 4;
  if ((code & 15) >= START_PLACE) {
    // The record of a start serves the start alone: no channel of the well, no step of the clock.
    if ((fault & 3) === 0 && well.pumps[pump]) pumpStartRecord(well.pumps[pump], tMs, raw);
    return;
  }
  const channel = channelOf(well, code);
  if ((fault & STEP_BIT) !== 0) passClockStep(well, tMs);
  if ((fault & 3) !== 0) {
    noteFault(channel, fault);
    if ((fault & 3) === FAULT_HIGH) clip(well, code);
    return;
  }
  if (channel.most !== undefined && raw >= channel.most) clip(well, code);
  const correction = well.inForce[code];
  const value = correction ? correction.gain * raw + correction.offset : raw;
  noteGood(channel, tMs, value);
  switch (code & 15) {
    case 0:
    case 1:
    case 2:
      passCurrent(well, pump, tMs, code & 15, value, emit);
      break;
    case PRESSURE:
      if (pump === 0) passPressure(well, tMs, value / 1000, emit);
      else passOwnPressure(well, pump, tMs, value / 1000, emit);
      break;
    case 4:
    case 5:
    case 6:
      passVolts(well, pump, (code & 15) - 4, value);
      break;
    case 7:
      passFlow(well, pump, tMs, value);
      break;
    case 8:
      spreadReading(well.minute.levelM, value);
      break;
    case 9:
      spreadReading(well.minute.storeM, value);
      break;
    case 10:
      if (well.records[pump]) well.records[pump].calls = value !== 0;
      break;
    case 11:
      spreadReading(well.minute.temperatureC, value);
      break;
    default:
      break;
  }
}

/** Voltage is the whole well's unless it has a pump's prefix. */
function passVolts(well: WellState, pump: number, phase: number, volts: number): void {
  const { pumps } = well.minute;
  for (let at = 0; at < pumps.length; at++) {
    if (at !== pump && pump !== 0) continue;
    spreadReading(spreadAt(pumps[at]!.volts, phase), volts);
    pumpVolts(well.pumps[at]!, volts);
  }
}

/** The clock was overruled here: nothing is followed across, and a run that goes on says so. */
function passClockStep(well: WellState, tMs: number): void {
  waterGap(well.water, tMs);
  for (const pump of well.pumps) if (pump.run) flagRun(pump.run, 'clock-step');
}

function clip(well: WellState, code: number): void {
  for (const [at, pump] of well.pumps.entries()) {
    if (at === code >> 4 || (code === PRESSURE && !well.records[at]!.own)) flagClipped(pump);
  }
}

/** Counts the time that current readings cover, up to `tMs`, into the minute and the day. */
export function countHeard(well: WellState, pump: number, tMs: number): void {
  const { pace } = well.pumps[pump]!;
  const record = well.records[pump]!;
  if (pace.lastMs < 0) return;
  const fromMs = Math.max(record.heardUntilMs, pace.lastMs);
  const untilMs = Math.min(tMs, pace.lastMs + goodForMs(pace));
  if (untilMs <= fromMs) return;
  record.heardUntilMs = untilMs;
  well.minute.pumps[pump]!.heardMs += untilMs - fromMs;
  const day = well.day?.pumps[pump];
  if (day) day.heardMs += untilMs - fromMs;
}

function passCurrent(well: WellState, at: number, tMs: number, leg: number, amps: number, emit: Emit): void {
  const pump = well.pumps[at];
  if (!pump) return;
  if (leg === 0) countHeard(well, at, tMs);
  const step = pumpCurrent(pump, tMs, leg, amps, pressureView(well, at));
  if (step.is !== 'none') passStep(well, at, step, emit);
  const sums = well.minute.pumps[at]!;
  if (isRunning(pump)) spreadReading(spreadAt(sums.running, leg), amps);
  else if (leg === 0) spreadReading(sums.resting, amps);
}

function passPressure(well: WellState, tMs: number, kpa: number, emit: Emit): void {
  trailReading(well.trail, tMs, kpa);
  spreadReading(well.minute.kpa, kpa);
  for (let at = 0; at < well.pumps.length; at++) {
    if (!well.records[at]!.own) pumpFeels(well, at, tMs, kpa, well.trail, emit);
  }
  waterReading(well.water, tMs, kpa);
}

/** `p2/pressure` and the like are that pump's alone: neither the tank's water nor another pump's points are read from it. */
function passOwnPressure(well: WellState, at: number, tMs: number, kpa: number, emit: Emit): void {
  const record = well.records[at];
  if (!record) return;
  const trail = (record.own ??= newTrail());
  trailReading(trail, tMs, kpa);
  spreadReading((well.minute.pumps[at]!.kpa ??= newSpread()), kpa);
  pumpFeels(well, at, tMs, kpa, trail, emit);
}

function pumpFeels(well: WellState, at: number, tMs: number, kpa: number, trail: Trail, emit: Emit): void {
  const pump = well.pumps[at]!;
  if (pumpWaits(pump)) {
    const step = pumpHeld(pump, tMs, pressureView(well, at));
    if (step.is !== 'none') passStep(well, at, step, emit);
  }
  pumpPressure(pump, tMs, kpa, trail);
}
