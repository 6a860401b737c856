/** What turns the pump of a drawn well on and off, and what its owner set it to. */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import type { ControlPlan } from '../plan.ts';
import type { Dice } from './draw.ts';

export type ControlKind = ControlPlan['is'];
export type SwitchPsi = readonly [cutIn: number, cutOut: number];

export const SWITCHES: readonly SwitchPsi[] = [
  [20, 40],
  [30, 50],
  [30, 50],
  [40, 60],
  [40, 60],
  [40, 60],
  [50, 70],
];
export const RELIEF_OVER_PSI = 15;
/** Water Systems Council, Pressure Tanks. */
const PRECHARGE_UNDER_PSI = 2;
/** A drive's tank (common practice, no source). */
const DRIVE_PRECHARGE_RATIO = 0.7;

export function prechargePsi(kind: ControlKind, [cutIn, cutOut]: SwitchPsi): number {
  return kind === 'variable-speed' ? Math.round(DRIVE_PRECHARGE_RATIO * cutOut) : cutIn - PRECHARGE_UNDER_PSI;
}

export function drawControl(
  kind: ControlKind,
  { points: [cutIn, cutOut], lowCutOff }: { points: SwitchPsi; lowCutOff: boolean },
  draw: Dice,
): ControlPlan {
  const points = {
    cutInKpa: kpaFromPsi(cutIn) + draw.between(-4, 4),
    cutOutKpa: kpaFromPsi(cutOut) + draw.between(-4, 4),
    scatterKpa: draw.between(0.5, 2.5),
  };
  const store = { areaM2: draw.between(1.5, 4), overflowM: 2, inletM: draw.between(4, 14) };
  switch (kind) {
    case 'pressure-switch':
      return { is: kind, ...points, ...(lowCutOff && { lowCutOffKpa: kpaFromPsi(cutIn - 10) }) };
    case 'constant-pressure-valve':
      return { is: kind, ...points, setKpa: kpaFromPsi(cutOut - 8) };
    case 'variable-speed':
      return { is: kind, setKpa: kpaFromPsi(cutOut), wakeKpa: kpaFromPsi(cutOut - 4) };
    case 'float':
      return { is: kind, onM: draw.between(1.2, 1.4), offM: 1.75, store };
    case 'timer':
      return { is: kind, onHours: [6, 18], forMin: draw.between(20, 45), store };
    default:
      return kind satisfies never;
  }
}
