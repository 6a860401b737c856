/**
 * A pump and motor by their horsepower and phase. Efficiencies, power factors and locked-rotor
 * ratios of small submersible motors are common practice without a source; the ratio of 5 to 6 is
 * that of EC&M (shared/reference-values.md, 2.7).
 */
import type { PumpPlan } from '../plan.ts';
import { ratedAmps } from '../motor.ts';
import { shutOffPowerRatio } from '../pump-curve.ts';
import type { Dice } from './draw.ts';

const WATTS_A_HP = 745.7;
const GRAVITY = 9.80665;
/** A small motor has the larger service factor (NEMA MG 1; from memory). */
const SERVICE_FACTORS: readonly (readonly [hp: number, factor: number])[] = [
  [0.5, 1.6],
  [0.75, 1.5],
  [1, 1.4],
  [1.5, 1.3],
  [99, 1.15],
];
/** 5, 7, 10, 15, 20, 30 gpm, by what a motor can drive. */
const FLOWS: readonly (readonly [hp: number, lPerS: readonly number[]])[] = [
  [0.5, [0.32, 0.44, 0.63]],
  [0.75, [0.44, 0.63, 0.63]],
  [1, [0.44, 0.63, 0.95]],
  [1.5, [0.63, 0.95, 1.26]],
  [3, [0.95, 1.26, 1.9]],
  [99, [1.26, 1.9, 2.5]],
];

function upTo<T>(table: readonly (readonly [number, T])[], hp: number): T {
  return table.find(([limit]) => hp <= limit)![1];
}

export interface PumpWish {
  hp: number;
  phase: 1 | 3;
  aboveGround?: boolean;
}

export function drawPump({ hp, phase, aboveGround }: PumpWish, draw: Dice): PumpPlan {
  const bestLPerS = draw.oneOf(upTo(FLOWS, hp));
  const efficiency = 0.4 + 0.12 * Math.log2(1 + 2 * bestLPerS) * draw.between(0.85, 1);
  const ratedW = hp * WATTS_A_HP;
  const bestW = ratedW * draw.between(0.88, 1.12);
  // Stages of low flow are of low specific speed.
  const specificSpeed = draw.between(700, 1500) * (1 + bestLPerS * draw.between(0.3, 1.4));
  const pump: PumpPlan = {
    phase,
    volts: phase === 3 ? draw.oneOf([230, 460]) : 230,
    bestHeadM: (bestW * efficiency) / (GRAVITY * bestLPerS),
    bestLPerS,
    shutOffRatio: draw.between(1.25, 1.6),
    shutOffPowerRatio: shutOffPowerRatio(specificSpeed),
    efficiency,
    motor: {
      ratedW,
      efficiency: (phase === 3 ? 0.74 : 0.64) + 0.03 * Math.log2(2 * hp),
      powerFactor: phase === 3 ? draw.between(0.78, 0.86) : draw.between(0.76, 0.95),
      slip: draw.between(0.03, 0.055),
      lockedRotorRatio: draw.between(4.5, 6.5),
      serviceFactor: upTo(SERVICE_FACTORS, hp),
    },
    cableOhm: 0,
    dropPipe: { lengthM: 0, diameterM: bestLPerS > 1.5 ? 0.041 : bestLPerS > 0.7 ? 0.035 : 0.0266 },
    ...(aboveGround === true && { aboveGround }),
  };
  // A cable that is sized by the book loses 1 to 5 % (common practice, no source).
  return { ...pump, cableOhm: (draw.between(0.01, 0.045) * pump.volts) / ratedAmps(pump) };
}
