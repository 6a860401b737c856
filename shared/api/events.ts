/**
 * What the engine says about a well: the four lines that `replay` prints and that the store, the
 * API and the pages share. The fields are the contract's (section 6): SI, the unit in the name,
 * times as UTC text with milliseconds; what could not be measured is absent.
 */
import type { AlarmKind, Priority, WeighedCause } from '../text/en/alarms/kinds.ts';
import type { Figures } from '../text/en/reasons/reason-text.ts';

export const CYCLE_FLAGS = [
  'gap',
  'clock-step',
  'clipped',
  'coarse',
  'no-cut-out',
  'failed-start',
  'merged',
] as const;
export type CycleFlag = (typeof CYCLE_FLAGS)[number];

/** One run and the rest before it. */
export interface CycleEvent {
  event: 'cycle';
  well: string;
  pump: string;
  started: string;
  stopped: string;
  ranS: number;
  restedS?: number;
  amps?: number;
  amps2?: number;
  amps3?: number;
  startAmps?: number;
  cutInKpa?: number;
  cutOutKpa?: number;
  riseDelayS?: number;
  deliveredL?: number;
  /** Where the pump's power was heard. */
  energyWh?: number;
  flags: CycleFlag[];
}

/**
 * One local day of one pump; of the whole well (without `pump`, the water fields) where a well has
 * several.
 */
export interface DayEvent {
  event: 'day';
  well: string;
  pump?: string;
  date: string;
  cycles?: number;
  ranS?: number;
  heardS?: number;
  ampsMedian?: number;
  usedL?: number;
  leakLPerDay?: number;
}

/** What is normal for this pump, as learnt or pinned at `at`. */
export interface BaselineEvent {
  event: 'baseline';
  well: string;
  pump: string;
  at: string;
  amps?: number;
  ampsSpread?: number;
  cutInKpa?: number;
  cutOutKpa?: number;
  ranS?: number;
  cyclesPerDay?: number;
  /** True where a person pinned it instead of the engine learning it. */
  pinned?: true;
  /** Why there is no normal to compare with, where that is so. */
  noneBecause?: string;
}

export type Evidence = Record<string, number | string>;

export type AlarmState = 'raised' | 'changed' | 'cleared' | 'withdrawn';

/** A change of an alarm: told when it rises, changes its priority or leading cause, and clears. */
export interface AlarmEvent {
  event: 'alarm';
  /** Absent only for `site-silent`, which has `site`. */
  well?: string;
  site?: string;
  pump?: string;
  node?: string;
  alarm: AlarmKind;
  state: AlarmState;
  at: string;
  /** Raised and changed carry the fields below; cleared does not. */
  since?: string;
  priority?: Priority;
  /**
   * Why it is active: a name with its figures in SI (shared/text/en/reasons/), and the sentence
   * made of them.
   */
  reason?: string;
  figures?: Figures;
  why?: string;
  evidence?: Evidence;
  causes?: WeighedCause[];
}

export type WellEvent = CycleEvent | DayEvent | BaselineEvent | AlarmEvent;
