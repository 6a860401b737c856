/**
 * A centrifugal pump: head falls with the square of flow, and wear rings that are worn let part of
 * what the impeller moves run back to its inlet. So a worn pump delivers less while its impeller
 * moves as much as ever, and the power at its shaft hardly changes (A. J. Stepanoff, Centrifugal
 * and Axial Flow Pumps, chapters on curves and on leakage loss; from memory).
 */
import type { PumpPlan } from './plan.ts';

const GRAVITY = 9.80665;

export interface PumpDuty {
  /** Speed over rated speed. */
  speed: number;
  /** What the flow is lifted against at no flow. */
  staticM: number;
  /** Of pipe and valve, m for each (L/s)^2. */
  lossM: number;
  /** Flow back to the inlet, L/s at the root of 1 m of head. */
  ringLeak: number;
  /** The same, but out of the drop pipe. */
  hole: number;
}

/** Delivered, and moved by the impeller, L/s. */
export interface PumpFlows {
  delivered: number;
  impeller: number;
}

/** Fall of head with flow, m for each (L/s)^2: the curve passes its best point. */
function curveSlope({ bestHeadM, bestLPerS, shutOffRatio }: PumpPlan): number {
  return ((shutOffRatio - 1) * bestHeadM) / (bestLPerS * bestLPerS);
}

/**
 * Where the curve meets the system. Affinity: head at no flow goes with the square of speed, and
 * the fall over flow does not change. Leaks are taken at the static head, which is most of the
 * head in a deep well: then the meeting point is the root of one quadratic.
 */
export function pumpFlows(pump: PumpPlan, duty: PumpDuty): PumpFlows {
  const { speed, staticM, lossM, ringLeak, hole } = duty;
  const slope = curveSlope(pump);
  const shutOffM = pump.bestHeadM * pump.shutOffRatio * speed * speed;
  const back = (ringLeak + hole) * Math.sqrt(Math.max(0, staticM));
  const spareM = shutOffM - staticM - slope * back * back;
  if (spareM <= 0) return { delivered: 0, impeller: recirculated(shutOffM, slope, ringLeak + hole) };
  const a = slope + lossM;
  const b = slope * back;
  const delivered = (Math.sqrt(b * b + a * spareM) - b) / a;
  return { delivered, impeller: delivered + back };
}

/** All of it runs back: head H with H = shut-off - slope * k^2 * H. */
function recirculated(shutOffM: number, slope: number, k: number): number {
  return k * Math.sqrt(shutOffM / (1 + slope * k * k));
}

/**
 * Power at the shaft: at no flow a part of that at the best point, and from there straight. The
 * affinity law gives the cube of speed. A pump of low specific speed takes more with more flow, one
 * of high specific speed takes less.
 */
export function shaftW(pump: PumpPlan, speed: number, impellerLPerS: number): number {
  const bestW = (GRAVITY * pump.bestLPerS * pump.bestHeadM) / pump.efficiency;
  const flow = impellerLPerS / (pump.bestLPerS * Math.max(speed, 0.05));
  const ratio = pump.shutOffPowerRatio + (1 - pump.shutOffPowerRatio) * Math.min(flow, 1.6);
  return bestW * speed ** 3 * Math.max(0.2, ratio);
}

/**
 * Power at no flow over power at the best point by specific speed in US units (rpm, gpm, ft a
 * stage). Read off the chart in Karassik, Pump Handbook, chapter on centrifugal pump performance;
 * from memory, within a tenth.
 */
const SHUT_OFF_POWER: readonly (readonly [specificSpeed: number, ratio: number])[] = [
  [500, 0.42],
  [1000, 0.5],
  [2000, 0.62],
  [3500, 0.9],
  [5000, 1.15],
];

export function shutOffPowerRatio(specificSpeed: number): number {
  const above = SHUT_OFF_POWER.findIndex(([speed]) => speed >= specificSpeed);
  if (above === 0) return SHUT_OFF_POWER[0]![1];
  if (above < 0) return SHUT_OFF_POWER.at(-1)![1];
  const [fromSpeed, fromRatio] = SHUT_OFF_POWER[above - 1]!;
  const [toSpeed, toRatio] = SHUT_OFF_POWER[above]!;
  return fromRatio + ((toRatio - fromRatio) * (specificSpeed - fromSpeed)) / (toSpeed - fromSpeed);
}
