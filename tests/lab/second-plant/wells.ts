/** A pump and a well of the second plant for its tests. */
import { household } from '../../../src/lab/second-plant/habits.ts';
import type { PumpPlan, SecondPlan } from '../../../src/lab/second-plant/plan.ts';

export const PUMP: PumpPlan = {
  phase: 1,
  volts: 230,
  bestHeadM: 60,
  bestLPerS: 0.63,
  shutOffRatio: 1.4,
  shutOffPowerRatio: 0.6,
  efficiency: 0.52,
  motor: {
    ratedW: 746,
    efficiency: 0.68,
    powerFactor: 0.8,
    slip: 0.045,
    lockedRotorRatio: 5,
    serviceFactor: 1.4,
  },
  cableOhm: 0.8,
  dropPipe: { lengthM: 45, diameterM: 0.0266 },
};

/** Monday, local midnight. */
export const MIDNIGHT = Date.UTC(2026, 2, 2, 7);

export function house(over: Partial<SecondPlan> = {}): SecondPlan {
  return {
    plant: 'second',
    name: 'house',
    seed: 5,
    utcOffsetH: -7,
    altitudeM: 0,
    pumps: { how: 'one', pumps: [PUMP] },
    supply: { ratio: 1, eveningDip: 0, wander: 0 },
    aquifer: {
      staticLevelM: 18,
      intakeM: 45,
      casingLPerM: 18,
      nearLPerM: 160,
      screenLPerSPerM: 0.2,
      aquiferLPerSPerM: 0.4,
    },
    tank: { volumeL: 235, prechargeKpa: 262, polytropic: 1.2 },
    control: { is: 'pressure-switch', cutInKpa: 276, cutOutKpa: 414, scatterKpa: 1 },
    habits: [household({ people: 4, rhythm: 'family' })],
    climate: { meanC: 10, seasonC: 11, dayC: 5, heatedToC: 5 },
    clamp: { noiseA: 0.01, stepA: 0.01, maxA: 60, gain: 1, idleA: 0 },
    transducer: { noiseKpa: 0.5, stepKpa: 0.1, offsetKpa: 0, driftKpaAYear: 0 },
    meanS: 1,
    ...over,
  };
}
