/** Plans of simulated wells for the tests of the plant, and how they are played. */
import { HOUSEHOLD } from '../../../src/lab/model/demand.ts';
import type {
  Condition,
  PlantSample,
  PumpPlan,
  TrueCycle,
  TrueDay,
  WellPlan,
} from '../../../src/lab/plant/params.ts';
import { newPlant, playPlant, truthOf } from '../../../src/lab/plant/plant.ts';
import type { Plant } from '../../../src/lab/plant/state.ts';

/** Midnight of the plan's local time. */
export const MIDNIGHT = Date.UTC(2026, 2, 1, 7);
export const HOUR = 3_600_000;
export const DAY = 24 * HOUR;
export const psi = (value: number): number => value * 6.894757293168;

export const PUMP: PumpPlan = {
  shutOffHeadM: 92,
  runOutLPerS: 0.92,
  idleFlowAmps: 5.2,
  fullFlowAmps: 8.3,
  phase: 1,
  volts: 230,
  frictionM: 6,
  dropPipeL: 25,
};

export function house(over: Partial<WellPlan> = {}): WellPlan {
  return {
    name: 'house',
    seed: 7,
    utcOffsetH: -7,
    altitudeM: 0,
    pumps: { how: 'one', pumps: [PUMP] },
    hole: { staticLevelM: 22, intakeM: 48, yieldLPerSPerM: 0.16, boreLPerM: 18 },
    tank: { kind: 'captive-air', volumeL: 235, prechargeKpa: psi(38) },
    control: { is: 'pressure-switch', cutInKpa: psi(40), cutOutKpa: psi(60), jitterKpa: 1 },
    fixtures: HOUSEHOLD,
    clamp: { noiseA: 0.02, stepA: 0.01, gain: 1, maxA: 60 },
    transducer: { noiseKpa: 0.8, stepKpa: 0.1, offsetKpa: 0 },
    ...over,
  };
}

/** A story in which something is wrong from the second midnight on. */
export function from(atMs: number, wrong: Partial<Condition>): (tMs: number) => Partial<Condition> {
  const sound = {};
  return (tMs) => (tMs >= atMs ? wrong : sound);
}

export interface Played {
  plant: Plant;
  samples: PlantSample[];
  cycles: TrueCycle[];
  days: TrueDay[];
}

export function play(plan: WellPlan, hours: number, everyS = 1): Played {
  const plant = newPlant(plan, MIDNIGHT);
  const samples: PlantSample[] = [];
  playPlant(plant, MIDNIGHT + hours * HOUR, everyS, (s) => samples.push(s));
  return { plant, samples, ...truthOf(plant) };
}

export function median(values: readonly (number | undefined)[]): number {
  const known = values.filter((v) => v !== undefined).sort((a, b) => a - b);
  return known[known.length >> 1]!;
}
