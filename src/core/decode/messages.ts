/**
 * What one MQTT message can be once its bytes were read: a pack, a hello, a presence, or a refusal
 * with a reason. Nothing further in checks shapes again. Shapes and rules:
 * firmware-contract/contract.md, sections 1 to 4.
 */
import type { ReasonOf } from '../../../shared/text/reason-of.ts';
import type { refusalTitles } from '../../../shared/text/en/pages/refused.ts';
import type { wireReasons } from '../../../shared/text/en/refusals/wire-reasons.ts';

/**
 * Channel name as on the wire, with its pump prefix where it has one: `current`, `p2/current`,
 * `pressure` …
 */
export type ChannelName = string;

/** A reading that is no number: 0 none, 1 low, 2 high, 3 bad (`vs`, after NAMUR NE 43). */
export type FaultCode = 0 | 1 | 2 | 3;

/** The readings of one channel in one pack, in the pack's order. */
export interface PackColumn {
  channel: ChannelName;
  /**
   * `clock: 'utc'`: Unix ms. Otherwise ms relative to the pack's own moment (t = 0), zero or
   * negative as a rule. Whole ms.
   */
  times: Float64Array;
  /**
   * SI in the contract's unit of the channel; NaN exactly where `faults` is not 0. `contact` is 0
   * or 1.
   */
  values: Float64Array;
  /** Absent where no reading of the column is a fault. */
  faults?: Uint8Array;
}

/** A checked SenML pack: names resolved, channels and units known, numbers finite. */
export interface Pack {
  node: string;
  kind: 'readings' | 'start';
  /** Both or neither. */
  boot?: number;
  seq?: number;
  first?: number;
  /**
   * `utc`: absolute times; `up`: relative to a moment at which the node had run `upMs`; `arrival`:
   * relative to arrival.
   */
  clock: 'utc' | 'up' | 'arrival';
  upMs?: number;
  columns: PackColumn[];
  /**
   * Records of channels that the contract doesn't know (in a start pack: that are no current):
   * passed over, and said so.
   */
  skipped?: { channel: string; count: number }[];
  /** 32-bit hash of the payload bytes: the same pack sent again is the same bytes. */
  digest: number;
}

export interface HelloChannel {
  n: ChannelName;
  u: string;
  /** Seconds between readings; 0 by exception. */
  every?: number;
  over?: number;
  is?: 'mean' | 'max' | 'spot';
  step?: number;
  max?: number;
}

export interface HeldRange {
  boot: number;
  from: number;
  to: number;
}

/** Who a node says it is (contract, section 3). */
export interface Hello {
  node: string;
  contract: number;
  firmware?: string;
  built?: string;
  boot?: number;
  upMs?: number;
  clock?: 'utc' | 'none';
  holdsS?: number;
  fedFrom?: 'pump-circuit' | 'other-circuit' | 'battery';
  held?: HeldRange[];
  speaksFor?: string[];
  channels: HelloChannel[];
}

export type Presence = 'here' | 'gone' | 'no-power';

/**
 * Why a message was refused. The contract's golden packs in firmware-contract/refused/ carry these
 * names.
 */
export const REFUSALS = [
  'retained',
  'too-large',
  'too-many-records',
  'empty',
  'not-utf8',
  'not-json',
  'not-cbor',
  'too-deep',
  'not-a-pack',
  'unknown-version',
  'bad-name',
  'name-mismatch',
  'unknown-channel',
  'wrong-unit',
  'no-value',
  'not-a-number',
  'out-of-range',
  'time-too-coarse',
  'bad-time',
  'bad-boot',
  'bad-seq',
  'bad-hello',
  'bad-presence',
  'unknown-topic',
  'not-let-in',
  'too-many-nodes',
] as const satisfies readonly (keyof typeof refusalTitles)[];
export type RefusalReason = (typeof REFUSALS)[number];

/** A rule of the wire that was broken, with the figures of its sentence. */
export type WireReason = ReasonOf<typeof wireReasons>;

export interface Refusal {
  refused: RefusalReason;
  /** The rule and the value that broke it. */
  why: WireReason;
  node?: string;
  /** Of a pack whose boot and seq could be read all the same: nothing more is wanted of it. */
  boot?: number;
  seq?: number;
}

export type Message =
  | { is: 'pack'; pack: Pack }
  | { is: 'hello'; hello: Hello; retained: boolean }
  | { is: 'presence'; node: string; presence: Presence; retained: boolean }
  /** Our own `kept` and `ask`, or another server's: nothing to do. */
  | { is: 'from-server'; node: string }
  | { is: 'refusal'; refusal: Refusal };
