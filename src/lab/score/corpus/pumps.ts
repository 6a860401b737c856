/**
 * Pumps that are met down private wells, by size: how they lift, what they draw, and what their
 * plate says. Curves and amps are those of common sizes (common practice, no source); plate amps
 * stand to the full-load amps of NEC tables 430.248 and 430.250 as submersible plates do.
 */
import type { PumpPlan } from '../../plant/params.ts';

interface PumpOfSize {
  pump: PumpPlan;
  /** Water below the tank tee that this size is chosen for, m. */
  staticLevelM: number;
  yieldLPerSPerM: number;
  /** What the owner's card says of it. */
  plate: Record<string, unknown>;
}

function single(
  pump: Omit<PumpPlan, 'phase' | 'volts' | 'dropPipeL'>,
  place: { staticLevelM: number; yieldLPerSPerM: number },
  plate: { motor: string; maxAmps: string; rated: string },
): PumpOfSize {
  return {
    pump: { ...pump, phase: 1, volts: 230, dropPipeL: 0.8 * (place.staticLevelM + 15) },
    ...place,
    plate: { kind: 'submersible', volts: '230 V', phase: 1, wires: 3, ...plate },
  };
}

export const PUMPS = {
  halfHp: single(
    { shutOffHeadM: 74, runOutLPerS: 0.62, idleFlowAmps: 3.5, fullFlowAmps: 5.2, frictionM: 8 },
    { staticLevelM: 14, yieldLPerSPerM: 0.14 },
    { motor: '1/2 hp', maxAmps: '6 A', rated: '6 gpm' },
  ),
  threeQuarterHp: single(
    { shutOffHeadM: 93, runOutLPerS: 0.94, idleFlowAmps: 5, fullFlowAmps: 7.6, frictionM: 6 },
    { staticLevelM: 22, yieldLPerSPerM: 0.16 },
    { motor: '3/4 hp', maxAmps: '8 A', rated: '9 gpm' },
  ),
  oneHp: single(
    { shutOffHeadM: 106, runOutLPerS: 1.05, idleFlowAmps: 6, fullFlowAmps: 9.3, frictionM: 5 },
    { staticLevelM: 28, yieldLPerSPerM: 0.2 },
    { motor: '1 hp', maxAmps: '9.8 A', rated: '10 gpm' },
  ),
  oneAndHalfHp: single(
    { shutOffHeadM: 122, runOutLPerS: 1.2, idleFlowAmps: 7, fullFlowAmps: 10.8, frictionM: 5 },
    { staticLevelM: 34, yieldLPerSPerM: 0.22 },
    { motor: '1-1/2 hp', maxAmps: '11.5 A', rated: '12 gpm' },
  ),
  twoHp: single(
    { shutOffHeadM: 132, runOutLPerS: 1.7, idleFlowAmps: 8, fullFlowAmps: 12.6, frictionM: 3 },
    { staticLevelM: 36, yieldLPerSPerM: 0.3 },
    { motor: '2 hp', maxAmps: '13.2 A', rated: '18 gpm' },
  ),
  threeHpThreePhase: {
    pump: {
      shutOffHeadM: 125,
      runOutLPerS: 2.8,
      idleFlowAmps: 6.2,
      fullFlowAmps: 10,
      phase: 3,
      volts: 230,
      frictionM: 1.2,
      dropPipeL: 60,
    },
    staticLevelM: 34,
    yieldLPerSPerM: 0.5,
    plate: {
      kind: 'submersible',
      motor: '3 hp',
      volts: '230 V',
      phase: 3,
      wires: 3,
      maxAmps: '10.9 A',
      rated: '30 gpm',
    },
  },
  fiveHpThreePhase: {
    pump: {
      shutOffHeadM: 96,
      runOutLPerS: 6.5,
      idleFlowAmps: 10,
      fullFlowAmps: 16.4,
      phase: 3,
      volts: 230,
      frictionM: 0.3,
      dropPipeL: 110,
    },
    staticLevelM: 24,
    yieldLPerSPerM: 1.4,
    plate: {
      kind: 'submersible',
      motor: '5 hp',
      volts: '230 V',
      phase: 3,
      wires: 3,
      maxAmps: '17.8 A',
      rated: '75 gpm',
    },
  },
  /** A jet pump over a shallow well, whose priming water is all that lets it lift. */
  jetHalfHp: {
    pump: {
      shutOffHeadM: 48,
      runOutLPerS: 0.7,
      idleFlowAmps: 6.6,
      fullFlowAmps: 9.4,
      phase: 1,
      volts: 115,
      frictionM: 8,
      dropPipeL: 6,
    },
    staticLevelM: 4,
    yieldLPerSPerM: 0.5,
    plate: { kind: 'jet', motor: '1/2 hp', volts: '115 V', phase: 1, maxAmps: '11 A', rated: '6 gpm' },
  },
} as const satisfies Record<string, PumpOfSize>;

export type PumpSize = keyof typeof PUMPS;
