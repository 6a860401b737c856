/**
 * What a well of the second plant is made of, and what can be wrong with it. This plant judges the
 * detector, so it shares no formula with the core and none with the first plant: each part is
 * built from a textbook that is named where the formula stands. Heads are in m of water, flows in
 * L/s, pressures in kPa over the atmosphere.
 */
import type { Habit } from './habits.ts';
import type { ClimatePlan } from './weather.ts';

export interface PumpPlan {
  phase: 1 | 3;
  volts: number;
  /** Head and flow at the best efficiency point of all stages together. */
  bestHeadM: number;
  bestLPerS: number;
  /** Head at no flow over head at the best point: 1.2 flat to 1.8 steep. */
  shutOffRatio: number;
  /** At no flow over that at the best point (./pump-curve.ts). */
  shutOffPowerRatio: number;
  efficiency: number;
  motor: MotorPlan;
  /** Both conductors of the drop cable, or one of a three-phase cable. */
  cableOhm: number;
  dropPipe: { lengthM: number; diameterM: number };
  /** Sucks from a level under it, as a jet pump does: it can lose its prime. */
  aboveGround?: boolean;
}

export interface MotorPlan {
  ratedW: number;
  efficiency: number;
  powerFactor: number;
  /** At rated load, as a ratio of the synchronous speed. */
  slip: number;
  lockedRotorRatio: number;
  serviceFactor: number;
}

export interface AquiferPlan {
  staticLevelM: number;
  intakeM: number;
  /** Water in the casing, and in what lies right around it, for each m of level. */
  casingLPerM: number;
  nearLPerM: number;
  /** From the near storage into the casing, and from the aquifer into the near storage. */
  screenLPerSPerM: number;
  aquiferLPerSPerM: number;
}

export interface TankPlan {
  volumeL: number;
  prechargeKpa: number;
  /** 1 isothermal to 1.4 adiabatic, for a change that is quick. */
  polytropic: number;
}

export type ControlPlan =
  | { is: 'pressure-switch'; cutInKpa: number; cutOutKpa: number; scatterKpa: number; lowCutOffKpa?: number }
  | { is: 'constant-pressure-valve'; cutInKpa: number; cutOutKpa: number; scatterKpa: number; setKpa: number }
  | { is: 'variable-speed'; setKpa: number; wakeKpa: number }
  | { is: 'float'; onM: number; offM: number; store: StorePlan }
  | { is: 'timer'; onHours: readonly number[]; forMin: number; store: StorePlan };

export interface StorePlan {
  areaM2: number;
  overflowM: number;
  /** Height of its inlet above the transducer. */
  inletM: number;
}

export interface InstrumentPlan {
  clamp: { noiseA: number; stepA: number; maxA: number; gain: number; idleA: number };
  transducer: { noiseKpa: number; stepKpa: number; offsetKpa: number; driftKpaAYear: number };
  /** Current is the mean of so many seconds. */
  meanS: number;
  metersVolts?: boolean;
}

export interface SupplyPlan {
  /** As a ratio of the motor's plate. */
  ratio: number;
  /** Lower in the evening by so much, and wandering by so much. */
  eveningDip: number;
  wander: number;
}

export interface SecondPlan extends InstrumentPlan {
  plant: 'second';
  name: string;
  seed: number;
  utcOffsetH: number;
  altitudeM: number;
  pumps: { how: 'one' | 'lead-lag' | 'alternate'; pumps: readonly PumpPlan[] };
  supply: SupplyPlan;
  aquifer: AquiferPlan;
  tank?: TankPlan;
  control: ControlPlan;
  reliefKpa?: number;
  /** A water heater behind a check valve: what it warms swells back into the tank. */
  waterHeater?: boolean;
  /** A protector stops a pump that runs light for `lightS`, and lets it try again. */
  protector?: { lightRatio: number; lightS: number; restartS: number };
  habits: readonly Habit[];
  climate: ClimatePlan;
  /** What is wrong at a moment, beside what is healthy. */
  fault?: (tMs: number) => Partial<Condition>;
  /** When the fault first shows in what is measured (./showing.ts). */
  showing?: Showing;
}

export type Showing =
  /** In the nth run that begins after the onset, or `afterS` into it. */
  | { is: 'run'; sinceMs: number; nth: number; afterS: number }
  /** Once the tee has been past a pressure for some time. */
  | { is: 'under-kpa' | 'over-kpa'; sinceMs: number; kpa: number; forS: number }
  /** Once the store has been under a depth for some time. */
  | { is: 'store-under'; sinceMs: number; m: number; forS: number }
  /** Once a pump has run for some time with so little water over its intake. */
  | { is: 'level-under'; sinceMs: number; m: number; forS: number }
  /** Once the pump house has been colder for some time. */
  | { is: 'house-under'; sinceMs: number; c: number; forS: number };

/** The state of all parts. Flows given at a pressure follow its square root. */
export interface Condition {
  /** Through worn wear rings back to the inlet, L/s at the root of 1 m of head. */
  ringLeak: number;
  /** Out of the drop pipe back into the well, L/s at the root of 1 m of head. */
  dropPipeHole: number;
  /** Back through the check valve while the pump rests, L/s at the root of 1 m of head. */
  checkValveLeak: number;
  /** Loss of a valve between pump and tee, m for each (L/s)^2. */
  valveLoss: number;
  /** How much of the screen is open. */
  screenOpen: number;
  /** Friction and sand: so much more power at the shaft. */
  dragRatio: number;
  /** No shaft turns the pump. */
  shaftBroken: boolean;
  airLocked: boolean;
  rotorStuck: boolean;
  /** A weak start capacitor: the chance that a start fails. */
  startFails: number;
  /** A run capacitor without effect: so much more magnetizing current. */
  reactiveRatio: number;
  /** Of the supply, beside its plan. */
  voltRatio: number;
  /** By line. */
  lineRatios: readonly [number, number, number];
  legLost: boolean;
  supplyOn: boolean;
  breakerClosed: boolean;
  /** Contacts of the switch, float relay or timer. */
  contacts: 'good' | 'stuck-closed' | 'stuck-open' | 'chatter';
  switchShiftKpa: number;
  /** Lag of what the switch senses. */
  switchLagS: number;
  /** The air charge as a ratio of what it was set to. */
  airRatio: number;
  /** What the static level has fallen by. */
  levelFallM: number;
  /** Out of the pipes behind the tank, L/s at 300 kPa. */
  leakLPerS: number;
  /** Out of the store. */
  storeLeakLPerS: number;
  useRatio: number;
  heaterOn: boolean;
  coldC: number;
  clampRatio: number;
  transducerOffsetKpa: number;
  transducer: 'good' | 'stuck' | 'low' | 'high';
  levelOffsetM: number;
}

export const HEALTHY: Condition = {
  ringLeak: 0,
  dropPipeHole: 0,
  checkValveLeak: 0,
  valveLoss: 0,
  screenOpen: 1,
  dragRatio: 1,
  shaftBroken: false,
  airLocked: false,
  rotorStuck: false,
  startFails: 0,
  reactiveRatio: 1,
  voltRatio: 1,
  lineRatios: [1, 1, 1],
  legLost: false,
  supplyOn: true,
  breakerClosed: true,
  contacts: 'good',
  switchShiftKpa: 0,
  switchLagS: 0.3,
  airRatio: 1,
  levelFallM: 0,
  leakLPerS: 0,
  storeLeakLPerS: 0,
  useRatio: 1,
  heaterOn: true,
  coldC: 0,
  clampRatio: 1,
  transducerOffsetKpa: 0,
  transducer: 'good',
  levelOffsetM: 0,
};
