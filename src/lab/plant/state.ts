/**
 * All that the simulated plant is at a moment. Plain data; ./plant.ts steps it, each part by its
 * own file.
 */
import type { Demand } from '../model/demand.ts';
import type { Random } from '../model/random.ts';
import type { HoleState } from './hole.ts';
import type { Condition, PumpPlan, WellPlan } from './params.ts';
import type { TankState } from './tank.ts';
import type { TruthState } from './truth.ts';

/**
 * One pump with its motor. `locked`: starting current flows and nothing turns; `tripped`: something
 * opened and waits.
 */
export interface PumpUnit {
  plan: PumpPlan;
  condition: Condition;
  state: 'off' | 'locked' | 'runs' | 'tripped';
  /** Seconds in this state, and how long a trip lasts. */
  inS: number;
  waitS: number;
  /** What a drive asks of it, as a share of full speed; 1 without one. */
  requestedSpeed: number;
  /** Through the pump, and up to the tee, L/s. */
  throughLPerS: number;
  upLPerS: number;
  /** 0 cold, 1 warm. */
  warm: number;
  /** Running current of a line on average, A, starting current included. */
  amps: number;
  /**
   * Ampere-seconds so far, and as they stood after the last steps (a ring), for a clamp that
   * averages.
   */
  chargeAs: number;
  ringMs: number[];
  ringAs: number[];
  ringAt: number;
  /** Seconds on too few lines, and seconds under the protector's current. */
  singleS: number;
  lowS: number;
  /** Of the drop pipe that has drained, L. */
  emptyL: number;
}

export interface ControlState {
  /** What the switch feels, kPa. */
  feltKpa: number;
  closed: boolean;
  latched: boolean;
  nextInKpa: number;
  nextOutKpa: number;
  /** Seconds since the contacts last moved, and how many times they bounce. */
  movedS: number;
  bounces: number;
  /** Which pump's turn it is; whether the lag pump is called. */
  activePump: number;
  lagIn: boolean;
  /** The drive's memory. */
  integral: number;
  speed: number;
  quietS: number;
  boostS: number;
}

export interface SensorState {
  kpaDrift: number;
  ampsDrift: number;
  /** Where in the table of deviates this reading is. */
  at: number;
  /**
   * How much of the wandering part is kept from reading to reading, and what comes new, at this
   * pace.
   */
  everyS: number;
  driftRetention: number;
  driftNoise: number;
  stuckKpa: number | undefined;
  /** A blow in the pipes: its size, kPa, and its age, s. */
  surgeKpa: number;
  surgeAgeS: number;
  /** How fast it swings (rad/s) and dies (1/s). */
  surgeRadPerS: number;
  surgeDecayPerS: number;
}

export interface Plant {
  plan: WellPlan;
  atmosphereKpa: number;
  teeLossKpa: number;
  /** Pressure at which a fixture gives its rated flow, kPa. */
  ratedKpa: number;
  inrushS: number;
  habits: Random;
  chance: Random;
  noise: Random;
  tMs: number;
  condition: Condition;
  scheduledCondition: Partial<Condition> | undefined;
  roomK: number;
  wellK: number;
  tank: TankState | undefined;
  /** Water in the store, L. */
  storeL: number;
  hole: HoleState;
  units: PumpUnit[];
  control: ControlState;
  demand: Demand;
  dayUseRatio: number;
  /** Seconds without water at the taps: people close them. */
  dryS: number;
  /** Sum of the draws of the plan that run now, L/s. */
  drawLPerS: number;
  teeKpa: number;
  tankKpa: number;
  frozenKpa: number | undefined;
  /** Into the tank, L/s, and how fast pressure moved in the last step, kPa/s. */
  netLPerS: number;
  slopeKpaPerS: number;
  /** The next step is a short one: something was opened or shut. */
  needsFineStep: boolean;
  /** The supply's volts as a share of nominal: its own wander, and with what is wrong. */
  supplyDriftRatio: number;
  voltRatio: number;
  /** The planned draws of this minute. */
  drawsNow: readonly { fromMs: number; untilMs: number; lPerS: number }[];
  sensors: SensorState;
  truth: TruthState;
}
