/**
 * When a run truly began and ended, between two readings. With a reading each 5 s a run of a minute
 * is known to 7 % only; but the pressure turns at the very instant. At the start the lines of rest
 * and run cross there; at the end the reading after the stop falls short of the run's line by what
 * the pump no longer delivered. Both are rough by the transducer's noise, so each is weighed
 * against 'anywhere between the two readings alike'.
 */
import { airVolumesOf, type AirParams } from './fill.ts';
import { fitLine, lineValueAt } from './linear-fit.ts';
import type { Trace } from './trace.ts';

export interface BoundaryInputs {
  /**
   * Time between the last reading at rest and the first of the run, s; likewise at the end. Absent
   * where readings are not steady.
   */
  startStepS?: number;
  stopStepS?: number;
  /** Room of the air at the reading after the stop. */
  stopAirVolume?: number;
  /** Noise of one reading, as room. */
  airVolumeNoise: number;
  /** Rate of delivery, 1/kPa/s. */
  rate: number;
}

/**
 * The line of rest is fitted to its last 45 s, that of the run to its first or last 45 %, without
 * the second next to the boundary; steps from 1.5 to 15 s are worth the trouble: shorter ones know
 * the instant themselves, longer ones leave too few points for a line (argued, not measured).
 */
const WINDOW_S = 45;
const EDGE_S = 1;
const RUN_FRACTION = 0.45;
const MIN_STEP_S = 1.5;
const MAX_STEP_S = 15;

/** Seconds to add to the run as the readings have it; negative where it was shorter. */
export function runCorrectionS(trace: Trace, air: AirParams, inputs: BoundaryInputs): number {
  const airVolumes = airVolumesOf(trace, air);
  return startCorrectionS(trace, airVolumes, inputs) - stopCorrectionS(trace, airVolumes, inputs);
}

type AirVolumes = ReturnType<typeof airVolumesOf>;

function isUsableStep(stepS: number | undefined): stepS is number {
  return stepS !== undefined && stepS >= MIN_STEP_S && stepS <= MAX_STEP_S;
}

/** How much earlier than half a step before its first reading the run began. */
function startCorrectionS(trace: Trace, airVolumes: AirVolumes, inputs: BoundaryInputs): number {
  const { startStepS, rate, airVolumeNoise } = inputs;
  const { startS, stopS, before, run } = trace;
  if (!isUsableStep(startStepS) || startS === undefined || stopS === undefined) return 0;
  const from = before.s.findIndex((s) => s > startS - WINDOW_S);
  const rest = from < 0 ? undefined : fitLine(before.s, airVolumes.before, from);
  const until = startS + Math.max(20, RUN_FRACTION * (stopS - startS));
  const head = run.s.findIndex((s) => s >= startS + EDGE_S);
  const to = run.s.filter((s) => s <= until).length;
  const rising = head < 0 ? undefined : fitLine(run.s, airVolumes.run, head, to);
  if (!rest || !rising || rest.n < 3 || rising.n < 3) return 0;
  const crossS = (lineValueAt(rest, startS) - lineValueAt(rising, startS)) / (rest.slope - rising.slope);
  const errorS = (airVolumeNoise * Math.sqrt(4 / rest.n + 4 / rising.n)) / rate;
  return weightedOffsetS(crossS, errorS, startStepS);
}

/** How much sooner than half a step before the first reading after it the run ended. */
function stopCorrectionS(trace: Trace, airVolumes: AirVolumes, inputs: BoundaryInputs): number {
  const { stopStepS, stopAirVolume, rate, airVolumeNoise } = inputs;
  const { startS, stopS, run } = trace;
  if (!isUsableStep(stopStepS) || stopAirVolume === undefined || startS === undefined || stopS === undefined)
    return 0;
  const from = run.s.findIndex((s) => s >= stopS - Math.max(20, RUN_FRACTION * (stopS - startS)));
  const rising = from < 0 ? undefined : fitLine(run.s, airVolumes.run, from);
  if (!rising || rising.n < 3) return 0;
  const shortS = (stopAirVolume - lineValueAt(rising, stopS)) / rate;
  return weightedOffsetS(shortS, (airVolumeNoise * Math.sqrt(1 + 4 / rising.n)) / rate, stopStepS);
}

/** Best guess of a time within a step, less half the step. */
function weightedOffsetS(seenS: number, errorS: number, stepS: number): number {
  const alike = 12 / stepS ** 2;
  const seen = 1 / errorS ** 2;
  const within = Math.min(1.5 * stepS, Math.max(-0.5 * stepS, seenS)) - stepS / 2;
  return Math.min(stepS / 2, Math.max(-stepS / 2, (within * seen) / (seen + alike)));
}
