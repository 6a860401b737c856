/**
 * Where a pump works today on its curve, and what a unit of water costs in power. Flow and power
 * are those of its last runs; the head is the depth to the pumping level, and the pressure at the
 * tank as height of water. Friction in the pipe is left out, so that the true head is somewhat
 * more. Wire-to-water efficiency is the power in the water over the power from the wire (density x
 * g x flow x head / power).
 */
import { median } from 'simple-statistics';
import type { CycleEvent } from '../../../shared/api/events.ts';
import type { DutyPoint } from '../../../shared/api/figures/figures.ts';
import type { CurvePoint } from '../../../shared/quantity/parse-curve-point.ts';
import { omitUndefined } from '../../../shared/omit-undefined.ts';

/** Of water at 10 C: kPa for each meter. Density 999.7 kg/m3 x 9.80665 m/s2. */
const KPA_PER_M = (999.7 * 9.80665) / 1000;
const HOUR_S = 3600;
/** Fewer runs are no normal of the present. */
const MIN_RUNS = 3;

export interface DutyInput {
  /** Of this pump, the last days'. */
  runs: readonly CycleEvent[];
  /** From the wellhead down to the water while it pumps; absent where nobody knows. */
  pumpingLevelM?: number;
  curve: readonly CurvePoint[];
}

/** Undefined where no run has its water measured. */
export function dutyPoint({ runs, pumpingLevelM, curve }: DutyInput): DutyPoint | undefined {
  const flowLPerS = medianOf(runs, ({ deliveredL, ranS }) =>
    deliveredL === undefined || ranS <= 0 ? undefined : deliveredL / ranS,
  );
  if (flowLPerS === undefined || flowLPerS <= 0) return undefined;
  const pressureKpa = medianOf(runs, ({ cutInKpa, cutOutKpa }) =>
    cutInKpa === undefined || cutOutKpa === undefined ? undefined : (cutInKpa + cutOutKpa) / 2,
  );
  const headM =
    pumpingLevelM === undefined || pressureKpa === undefined
      ? undefined
      : pumpingLevelM + pressureKpa / KPA_PER_M;
  const powerW = medianOf(runs, ({ energyWh, ranS }) =>
    energyWh === undefined || ranS <= 0 ? undefined : (energyWh * HOUR_S) / ranS,
  );
  const curveHeadM = headAt(curve, flowLPerS);
  return omitUndefined({
    flowLPerS,
    headM,
    powerW,
    curveHeadM,
    headRatio: headM === undefined || curveHeadM === undefined ? undefined : headM / curveHeadM,
    efficiency:
      headM === undefined || powerW === undefined ? undefined : waterPowerW(flowLPerS, headM) / powerW,
    whPerL: powerW === undefined ? undefined : powerW / (flowLPerS * HOUR_S),
  });
}

/** L/s x m x kPa/m is W: a liter lifted one meter takes 9.8 J. */
function waterPowerW(flowLPerS: number, headM: number): number {
  return flowLPerS * headM * KPA_PER_M;
}

function medianOf(
  runs: readonly CycleEvent[],
  of: (run: CycleEvent) => number | undefined,
): number | undefined {
  const values = runs.flatMap((run) => of(run) ?? []);
  return values.length < MIN_RUNS ? undefined : median(values);
}

/** The curve between its points; nothing beyond them, where nobody measured it. */
export function headAt(curve: readonly CurvePoint[], flowLPerS: number): number | undefined {
  const points = curve.toSorted((a, b) => a.flowLPerS - b.flowLPerS);
  const above = points.findIndex((point) => point.flowLPerS >= flowLPerS);
  const [low, high] = [points[above - 1], points[above]];
  if (!high) return undefined;
  if (high.flowLPerS === flowLPerS) return high.headM;
  if (!low) return undefined;
  const ratio = (flowLPerS - low.flowLPerS) / (high.flowLPerS - low.flowLPerS);
  return low.headM + ratio * (high.headM - low.headM);
}

/** The maker's points, with the shut-off head as the one without flow. */
export function curveOf(notes: { curve?: CurvePoint[]; shutOffHeadM?: number } | undefined): CurvePoint[] {
  const { curve = [], shutOffHeadM } = notes ?? {};
  const hasShutOff = curve.some(({ flowLPerS }) => flowLPerS === 0);
  const shutOff = shutOffHeadM === undefined || hasShutOff ? [] : [{ flowLPerS: 0, headM: shutOffHeadM }];
  return [...shutOff, ...curve].toSorted((a, b) => a.flowLPerS - b.flowLPerS);
}
