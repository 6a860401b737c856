/**
 * One labelled recording of the proving ground: how a well is played, what its card says, and what
 * is true of it. A case is plain data and a function; whoever plays it (./play.ts) brings the node,
 * the link and the clock.
 */
import type { AlarmKind, Cause } from '../../../shared/text/en/alarms/kinds.ts';
import type { WellPlan } from '../plant/params.ts';
import type { SecondPlan } from '../second-plant/plan.ts';

/** What is wrong, from when, and what is right to say of it. */
export interface Fault {
  /** In physical terms: 'the tank has lost half of its air'. */
  what: string;
  /**
   * Cases of one family are the same fault in several sizes; the two heaviest must always be found.
   */
  family: string;
  /** 1 is the lightest. */
  size: number;
  /** The alarms that are right, the best first; any of them counts as found. */
  alarms: readonly AlarmKind[];
  /** The causes that are right. */
  causes: readonly Cause[];
  beganMs: number;
  /**
   * From when the readings show it, argued in the case's comment. Where the plant saw the moment
   * itself (`PlayResult.shownMs`), that one counts, and `byMs` moves with it.
   */
  knowableMs: number;
  /** By when it should be told: 2 min after `knowableMs` for a `now` alarm. */
  byMs: number;
  /**
   * It should also be told within so many runs that began after `knowableMs` (a step of the
   * current).
   */
  withinCycles?: number;
  /**
   * A line of its own in the scoreboard: a step of the current, a slow drift of it, a tank half
   * waterlogged.
   */
  measure?: 'amps-step' | 'amps-drift' | 'tank-half';
}

/** What a node does beside measuring. All times are of the true clock. */
export interface NodePlan {
  /**
   * Seconds between readings; 0 by exception: on a change of `changeA` or `changeKpa`, and each 60
   * s.
   */
  everyS: number;
  changeA?: number;
  changeKpa?: number;
  /** Current comes as a mean of so many seconds, that often; else as that of the last second. */
  meanS?: number;
  packS: number;
  clock: 'utc' | 'none';
  fedFrom?: 'pump-circuit' | 'other-circuit' | 'battery';
  /**
   * Channels beside current and pressure: `voltage`, `temperature`, `level`, `store`, `contact`.
   */
  extraChannels: readonly string[];
  /** No pressure channel at all. */
  withoutPressure?: boolean;
  reboots?: readonly { atMs: number; downS: number }[];
  /** The network is away: packs are held and come at its end. */
  outages?: readonly { fromMs: number; untilMs: number }[];
  /** Its own supply is gone: nothing is measured; `lastGasp`: it says `no-power` before. */
  powerCuts?: readonly { fromMs: number; untilMs: number; lastGasp: boolean }[];
  /** The clock jumps by so many seconds at a time, and is set right later. */
  clockJumps?: readonly { fromMs: number; untilMs: number; byS: number }[];
  /** From here on a second box, fitted beside the first, sends under the same name. */
  twinFromMs?: number;
}

export interface CorpusCase {
  /** `house-tank-half-air`: unique, in plain words. */
  name: string;
  about: string;
  is: 'healthy' | 'fault' | 'bad-input';
  /** Of either plant. */
  plan: WellPlan | SecondPlan;
  /** As people write it (contract, section 5). */
  card: Record<string, unknown>;
  node: NodePlan;
  fromMs: number;
  days: number;
  fault?: Fault;
  /**
   * Alarms that are no news but true beside the fault (a power cut's `node-silent`): neither right
   * nor false.
   */
  allowed?: readonly AlarmKind[];
  /** Acts in order of time, as in a recording. */
  acts?: readonly { atMs: number; act: Record<string, unknown> }[];
}
