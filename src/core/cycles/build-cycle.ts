/**
 * A run that is over, with the pressure beside it, as a cycle: the numbers that describe it, and
 * whether the motor turned at all.
 */
import { findLoadLoss, findLoadLossAtEnd } from './load-loss.ts';
import type { Cycle } from './cycle.ts';
import { detectLongStart } from './long-start.ts';
import { readsMeans, samplingOf, type PressureView, type PumpState } from './pump-state.ts';
import { flagRun, runMedianAmps, type Run } from './run.ts';
import { finishShape } from './shape.ts';
import { inrushS, type StartTrack } from './start.ts';
import { readCutOut, readCutOutOfSpans } from './pressure-buffer.ts';

/**
 * A peak under this many times the running current is no start: the record came too late, or a
 * drive started the motor softly.
 */
const PEAK_OVER_RUNNING = 2;
/**
 * A motor that does not turn draws several times its running current, until something trips: the
 * slowest overloads take 30 s (class 30).
 */
const LOCKED_RATIO = 2.2;
/**
 * One that raised pressure did turn, unless another pump raised it: the median of a run of seconds
 * is mostly its inrush.
 */
const LOCKED_RATIO_RAISING = 3;
const MAX_LOCKED_MS = 45_000;

/** `stoppedMs`: the first reading at rest, or where the run was last heard. */
export function buildCycle(pump: PumpState, run: Run, stoppedMs: number, pressure: PressureView): Cycle {
  const { startedMs } = run;
  const cycle: Cycle = {
    pump: pump.index,
    startedMs,
    stoppedMs,
    ranS: (stoppedMs - startedMs) / 1000,
    readings: run.readings,
    flags: run.flags,
  };
  if (run.startSeen && pump.restFromMs !== undefined) cycle.restedS = (startedMs - pump.restFromMs) / 1000;
  setAmps(cycle, run);
  setStart(cycle, run.start);
  const longStart = detectLongStart(run, cycle);
  if (longStart) cycle.longStart = longStart;
  if (run.voltsN > 0) cycle.volts = round2(run.voltsSum / run.voltsN);
  if (run.cutInKpa !== undefined) cycle.cutInKpa = round2(run.cutInKpa);
  if (!run.flags.includes('gap') || stoppedMs === pump.edges.candidateMs) setCutOut(cycle, pump, pressure);
  setRise(cycle, run);
  if (isLocked(pump, cycle)) flagRun(run, 'failed-start');
  setShape(cycle, run, pump);
  return cycle;
}

function setAmps(cycle: Cycle, run: Run): void {
  const [amps, amps2, amps3] = [runMedianAmps(run, 0), runMedianAmps(run, 1), runMedianAmps(run, 2)];
  if (amps !== undefined) cycle.amps = amps;
  if (amps2 !== undefined) cycle.amps2 = amps2;
  if (amps3 !== undefined) cycle.amps3 = amps3;
}

/** Of a stop that was seen: one in a hole of the data has no pressure of its own. */
function setCutOut(cycle: Cycle, pump: PumpState, { buffer, pace }: PressureView): void {
  const { startedMs, stoppedMs } = cycle;
  const cutOutKpa = readsMeans(pump)
    ? readCutOutOfSpans(buffer, startedMs, stoppedMs, pump.spanMs!)
    : readCutOut(buffer, startedMs, stoppedMs, samplingOf(pace));
  if (cutOutKpa !== undefined) cycle.cutOutKpa = round2(cutOutKpa);
}

function setRise(cycle: Cycle, run: Run): void {
  if (run.risenMs !== undefined && run.risenMs <= cycle.stoppedMs)
    cycle.riseDelayS = (run.risenMs - cycle.startedMs) / 1000;
}

function setShape(cycle: Cycle, run: Run, { pace, levels }: PumpState): void {
  const { amps = 0, ranS, readings } = cycle;
  const periodS = pace.periodMs / 1000;
  cycle.shape = finishShape(run.shape, { periodS, holds: pace.byException, ranS });
  // A drive lowers its current as less is drawn.
  if (levels.hasDrive) return;
  const loadLoss =
    findLoadLoss(cycle.shape, ranS) ?? findLoadLossAtEnd(run.lastReadings, { amps, ranS, periodS, readings });
  if (loadLoss) cycle.loadLoss = { atS: loadLoss.atS, ratio: round2(loadLoss.ratio) };
}

function setStart(cycle: Cycle, start: StartTrack | undefined): void {
  if (!start) return;
  cycle.startAmps = start.peakAmps;
  if (cycle.amps !== undefined && start.peakAmps > PEAK_OVER_RUNNING * cycle.amps)
    cycle.startS = round2(inrushS(start));
}

/** So much over its running current that the motor did not turn. */
export function isLockedRotorCurrent(pump: PumpState, amps: number, ratio = LOCKED_RATIO): boolean {
  // A drive starts softly and runs at any speed: only the motor's maximum is a measure.
  const normalAmps = pump.levels.hasDrive ? pump.maxAmps : (pump.levels.running ?? pump.maxAmps);
  return normalAmps !== undefined && amps > ratio * normalAmps;
}

function isLocked(pump: PumpState, { amps, ranS, riseDelayS }: Cycle): boolean {
  const ratio = riseDelayS === undefined ? LOCKED_RATIO : LOCKED_RATIO_RAISING;
  return amps !== undefined && isLockedRotorCurrent(pump, amps, ratio) && ranS * 1000 <= MAX_LOCKED_MS;
}

function round2(value: number): number {
  return Math.round(value * 100) / 100;
}
