/**
 * What a card says of the well that no reading can tell and no watch judges by: makers, the hole, wiring, treatment, where things are and
 * whom to call. It stands apart from the rest of the card, so that a change of it can't touch what was learnt: nothing after `card` reads it.
 */

/** A check valve: how deep, or beside what it sits. */
export type CheckValve = { depthM: number } | { beside: string };

export interface PumpDescription {
  maker?: string;
  model?: string;
  controlBox?: string;
  installer?: string;
  /** A variable-speed drive or constant-pressure valve: its maker, model and setting. */
  drive?: string;
  /** Where the float hangs, or what the timer is set to. */
  float?: string;
}

export interface HoleDescription {
  /** Under the ground, as drilled. */
  depthM?: number;
  /** A date, a month or a year: `2004-08-30`, `2004-08`, `2004`. */
  drilled?: string;
  /** Nominal diameter. */
  casingDiameterM?: number;
  /** How deep the casing goes. */
  casingDepthM?: number;
  casingMaterial?: string;
  /** From the ground down to standing water; negative where the well flows by itself. */
  staticLevelM?: number;
  /** Nominal diameter. */
  dropPipeDiameterM?: number;
  dropPipeMaterial?: string;
  checkValves: CheckValve[];
  yieldLPerS?: number;
  driller?: string;
  /** Number of the well log with the authority that keeps it. */
  logNumber?: string;
}

export interface TankDescription {
  maker?: string;
  model?: string;
  installer?: string;
  /** As `drilled`. */
  installed?: string;
}

/** Where the order of wires is written down. */
export const TERMINAL_LOCATIONS = [
  'panel',
  'disconnect',
  'switch',
  'controlBox',
  'drive',
  'wellHead',
] as const;
export type TerminalLocation = (typeof TERMINAL_LOCATIONS)[number];

export interface ElectricalDescription {
  /** Which panel. */
  panel?: string;
  /** The breaker's number or numbers in the panel. */
  breaker?: string;
  breakerA?: number;
  disconnect?: string;
  /** Size, material and length of the cable to the pump. */
  cable?: string;
  /** By place, one line a terminal: `L1 black`. */
  wires: Partial<Record<TerminalLocation, string[]>>;
  /** Papers by the SHA-256 of their bytes. */
  photos: string[];
}

/** Things that somebody looks for in a strange house, in the order of the water. */
export const LOCATIONS = [
  'wellHead',
  'pumpHouse',
  'panel',
  'disconnect',
  'controlBox',
  'switch',
  'gauge',
  'tank',
  'relief',
  'shutOff',
  'sampleTap',
  'treatment',
] as const;
export type Location = (typeof LOCATIONS)[number];

export interface PeopleDescription {
  owner?: string;
  address?: string;
  /** Whom to call of the house: name, telephone. */
  contact?: string;
  /** Whom to call for the well: firm, telephone, licence. */
  firm?: string;
}

export interface CardDescription extends PeopleDescription {
  /** By the pump's name, `p1`; only those of which something is said. */
  pumps: Record<string, PumpDescription>;
  hole: HoleDescription;
  tank: TankDescription;
  electrical: ElectricalDescription;
  treatment: string[];
  where: Partial<Record<Location, string>>;
}
