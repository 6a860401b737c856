/**
 * What a simulated well is made of, and what can be wrong with it, in physical terms. The plant
 * (./plant.ts) steps these by physics of its own and shares nothing with src/core/hydraulics/: what
 * the engine reckons must come out of it, not be put in.
 */
import type { Fixture } from '../model/demand.ts';

/** A pump in the hole: its head-flow curve, where the water stands, what the pipe takes. */
export interface PumpPlan {
  /** Head at no flow, m; flow at no head, L/s. */
  shutOffHeadM: number;
  runOutLPerS: number;
  /** Current of one line at no flow and at run-out, A at nominal volts. */
  idleFlowAmps: number;
  fullFlowAmps: number;
  phase: 1 | 3;
  volts: number;
  /** Friction of drop pipe and fittings, m per (L/s)^2. */
  frictionM: number;
  /** Length of drop pipe that drains where a check valve leaks, L. */
  dropPipeL: number;
  /**
   * A pump protector: opens when the current has been under this for so long, and starts again by
   * itself.
   */
  protector?: { belowAmps: number; afterS: number; restartS: number };
}

export interface HolePlan {
  /** Water below the tank tee at rest, m; the pump's intake below the tank tee, m. */
  staticLevelM: number;
  intakeM: number;
  /**
   * Flow for each metre the level falls, L/s per m; water that the bore holds for each metre, L.
   */
  yieldLPerSPerM: number;
  boreLPerM: number;
}

export interface TankPlan {
  kind: 'captive-air' | 'plain';
  volumeL: number;
  prechargeKpa: number;
}

export type ControlPlan =
  | { is: 'pressure-switch'; cutInKpa: number; cutOutKpa: number; jitterKpa: number; lowCutOffKpa?: number }
  | { is: 'variable-speed'; setKpa: number; sleepBelowLPerS: number; wakeKpa: number }
  | { is: 'constant-pressure-valve'; setKpa: number; cutInKpa: number; cutOutKpa: number; minLPerS: number }
  | { is: 'float'; storeL: number; areaM2: number; onM: number; offM: number }
  | { is: 'timer'; storeL: number; areaM2: number; onHours: readonly number[]; forMin: number };

/** Several pumps feed one tank: the second starts below the first's cut-in, or they take turns. */
export interface PumpsPlan {
  pumps: readonly PumpPlan[];
  how: 'one' | 'alternating' | 'lag';
  lagBelowKpa?: number;
}

export interface WellPlan {
  name: string;
  seed: number;
  utcOffsetH: number;
  altitudeM: number;
  pumps: PumpsPlan;
  hole: HolePlan;
  tank?: TankPlan;
  control: ControlPlan;
  fixtures: readonly Fixture[];
  /**
   * Water drawn at a rate between two times: irrigation, a pool, guests' long showers, a softener
   * at night.
   */
  draws?: readonly { fromMs: number; untilMs: number; lPerS: number }[];
  /** How much is used on a day, as a share of the usual: 0 away, 2.5 with guests. */
  useRatio?: (tMs: number) => number;
  reliefKpa?: number;
  /**
   * Loss between the tee, where switch and transducer sit, and the tank, kPa per (L/s)^2; 3 to 12,
   * by the seed, if left out.
   */
  teeLossKpa?: number;
  /** Temperature of the water in the ground, C; 11 if left out. */
  waterC?: number;
  /**
   * How far the pump house swings about `temperatureC` by day and by season, K; 2 and 4 if left
   * out. None while a story gives `temperatureC`.
   */
  daySwingC?: number;
  seasonSwingC?: number;
  clamp: { noiseA: number; stepA: number; gain: number; maxA: number };
  transducer: { noiseKpa: number; stepKpa: number; offsetKpa: number; maxKpa?: number };
  schedule?: (tMs: number) => Partial<Condition>;
}

/**
 * What is not as it should be at a moment; `HEALTHY` is all well. Looked up every five seconds of
 * the clock.
 */
export interface Condition {
  // The tank
  /** Share of the air's mass that is gone; negative: too much was pumped in. */
  airLost: number;
  /**
   * The bladder is burst: water takes the whole tank but for air trapped on top, which dissolves.
   */
  bladderBurst: boolean;
  // The plumbing
  /** A leak behind the tank, L/s at 350 kPa: flow goes with the root of pressure. */
  leakLPerS: number;
  /**
   * Water that falls back down the drop pipe while the pump rests, L/s at 350 kPa (check valve,
   * pitless adapter).
   */
  backLeakLPerS: number;
  /**
   * Share of what is pumped that is lost in the well before it comes up (hole in the drop pipe),
   * and back-leak as above.
   */
  dropPipeLost: number;
  /**
   * The drop pipe itself drains at rest at this rate, L/s, above a check valve at the tee that
   * holds: the next run fills it first.
   */
  dropPipeDrainsLPerS: number;
  /** Water that a heater pushes back as it warms, L/s. */
  heatExpansionLPerS: number;
  /** Share of the flow area that a valve or ice shuts between pump and tank. */
  shut: number;
  /** The nipple of the switch is blocked: the switch feels pressure with this time constant, s. */
  nippleBlockedS: number;
  /** Pressure line of switch and transducer frozen: both see what stood when it froze. */
  lineFrozen: boolean;
  // The pump and motor (of pump number `onlyPump`, from 0; -1: of all)
  onlyPump: number;
  /** Share of head and flow that the impellers have lost. */
  worn: number;
  /** The motor draws this share more at every load (winding, bearings). */
  drag: number;
  /** Three phases: turns backwards, about half of head and flow. */
  backwards: boolean;
  /**
   * Starting current for a second or so, then the overload opens; tries again after this long, s; 0
   * starts well.
   */
  failsToStartS: number;
  /** How long locked-rotor current flows at each vain start, s. */
  lockedForS: number;
  // The supply
  /** No supply at the pump circuit: breaker open or the whole site. */
  circuitDead: boolean;
  /** Volts as a share of nominal, on top of its own wander. */
  voltRatio: number;
  /** Frequency as a share of nominal (a generator): speed goes with it. */
  frequencyRatio: number;
  /** Which line is dead (three phases), and how uneven the lines are: shares of the mean. */
  deadLeg: 0 | 1 | 2 | 3;
  unevenLegs: readonly [number, number, number];
  // The controls
  stuckContacts: boolean;
  /** Somebody holds the lever of a switch with a low cut-off: it is in again and does not open. */
  lowCutOffReset: boolean;
  cutInShiftKpa: number;
  cutOutShiftKpa: number;
  /** Contacts chatter: each start or stop bounces this many times. */
  chatter: number;
  // The well
  /** Fall of the static level, m; share of the yield that is lost. */
  levelFallM: number;
  yieldLost: number;
  // Sensors
  clampOff: boolean;
  clampGain: number;
  transducerOffsetKpa: number;
  transducerStuck: boolean;
  transducerOut: 0 | 1 | 2 | 3;
  /** Other load on the clamped conductor, A. */
  otherAmps: number;
  // The air
  temperatureC: number;
  /** The store leaks or is drunk at, L/s, beside the fixtures. */
  storeLossLPerS: number;
}

export const HEALTHY: Condition = {
  airLost: 0,
  bladderBurst: false,
  leakLPerS: 0,
  backLeakLPerS: 0,
  dropPipeLost: 0,
  dropPipeDrainsLPerS: 0,
  heatExpansionLPerS: 0,
  shut: 0,
  nippleBlockedS: 0,
  lineFrozen: false,
  onlyPump: -1,
  worn: 0,
  drag: 0,
  backwards: false,
  failsToStartS: 0,
  lockedForS: 1,
  circuitDead: false,
  voltRatio: 1,
  frequencyRatio: 1,
  deadLeg: 0,
  unevenLegs: [1, 1, 1],
  stuckContacts: false,
  lowCutOffReset: false,
  cutInShiftKpa: 0,
  cutOutShiftKpa: 0,
  chatter: 0,
  levelFallM: 0,
  yieldLost: 0,
  clampOff: false,
  clampGain: 1,
  transducerOffsetKpa: 0,
  transducerStuck: false,
  transducerOut: 0,
  otherAmps: 0,
  temperatureC: 15,
  storeLossLPerS: 0,
};

/** What the plant shows at one moment: what sensors would read, and beside it the truth. */
export interface PlantSample {
  tMs: number;
  /** By pump, by line, A; undefined where no such line. */
  amps: readonly (readonly number[])[];
  kpa?: number;
  /** Set where the transducer is out of its span: 1 low, 2 high, 3 bad. */
  kpaFault?: 1 | 2 | 3;
  volts: readonly number[];
  storeM?: number;
  levelM?: number;
  /** The switch, float or timer calls for water (the `contact` channel). */
  calls?: boolean;
  temperatureC: number;
}

/** True runs and amounts, as the scoreboard wants them. */
export interface TrueCycle {
  pump: number;
  startedMs: number;
  stoppedMs: number;
  /**
   * Without noise, as this clamp and transducer would show them; absent where the run never
   * settled.
   */
  amps?: number;
  cutInKpa?: number;
  cutOutKpa?: number;
  deliveredL: number;
}

export interface TrueDay {
  startMs: number;
  endMs: number;
  usedL: number;
  /** Lost by leaks behind the tank, L. */
  leakL: number;
}
