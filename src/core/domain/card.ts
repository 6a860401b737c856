/**
 * What a person knows of the well, checked and in SI. Every field but the names is optional: what was left out is learnt or
 * left unsaid, never invented. How people write it: contract, section 5; reading and checking it: ./read-card.ts.
 */
import type { CardDescription } from './description.ts';

export type Control = 'pressure-switch' | 'variable-speed' | 'constant-pressure-valve' | 'float' | 'timer';
export type Use = 'house' | 'stock' | 'irrigation';

export interface PumpCard {
  /** `p1`, `p2` … */
  id: string;
  /** Pressure switch where the card does not say. */
  control: Control;
  kind?: 'submersible' | 'jet' | 'booster';
  motorW?: number;
  volts?: number;
  phase?: 1 | 3;
  supplyPhase?: 1 | 3;
  wires?: 2 | 3;
  /** The motor's service-factor amps. */
  maxAmps?: number;
  ratedLPerS?: number;
  setDepthM?: number;
  /** ISO date, or its month or year alone. */
  installed?: string;
  clamp?: 'line' | 'yellow' | 'black' | 'red';
  alsoOnClamp?: string;
  /** A pump protector that starts again by itself, after this long. */
  protectorRestartS?: number;
}

export interface SwitchCard {
  cutInKpa?: number;
  cutOutKpa?: number;
  lowCutOffKpa?: number;
}

export interface TankCard {
  kind: 'captive-air' | 'plain';
  volumeL?: number;
  prechargeKpa?: number;
}

/** Where one channel of the well comes from, from `sinceMs` (0: always) until the next rule of that channel. */
export interface SourceRule {
  /** The well's channel: `current`, `p2/current`, `pressure` … */
  channel: string;
  node: string;
  /** The node's channel. */
  nodeChannel: string;
  sinceMs: number;
}

export interface Card {
  well: string;
  site?: string;
  /** IANA; `UTC` where not given. */
  timeZone: string;
  /** 0 where not given; `altitudeKnown` says which, since litres depend on it. */
  altitudeM: number;
  altitudeKnown: boolean;
  uses: Use[];
  /** At least one. */
  pumps: PumpCard[];
  switch: SwitchCard;
  tank?: TankCard;
  reliefKpa?: number;
  /** How many false alarms a year, by chance, people will bear from this whole well; the usual where not given (src/core/alarms/charts/false-alarm-budget.ts). */
  falseAlarmsPerYear?: number;
  /** Sorted by channel, then `sinceMs`. Empty: the node of the well's name, channels as they are. */
  reads: SourceRule[];
  /** What no watch judges by; absent where nothing of it is said. */
  description?: CardDescription;
}
