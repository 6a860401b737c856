/**
 * Everything that can change a well, each with its time: readings in order, acts of people, news of its nodes, and each whole
 * UTC minute (which the engine makes itself). Acts follow the contract, section 6.
 */
import type { Act } from '../card/act.ts';

export type { Act, PinnedValues } from '../card/act.ts';

/**
 * A stretch of readings of one well, ordered by time and then by channel code; the first `n` of each array count.
 * `channel[i]` is a channel code (src/card/channels.ts) in the well's own names. `fault[i]` is a FaultCode; `value[i]` is NaN where it is not 0.
 */
export interface Stretch {
  n: number;
  timeMs: Float64Array;
  channel: Uint8Array;
  value: Float64Array;
  fault: Uint8Array;
}

/** What arrival, and not measurement, says of a node that a well reads from. Kept as input. */
export type NodeNews =
  | { news: 'silent'; node: string; sinceMs: number; withSite?: string }
  | { news: 'heard'; node: string }
  | { news: 'no-power'; node: string }
  | { news: 'power-back'; node: string }
  | { news: 'conflict'; node: string; sinceMs: number; evidence: Record<string, number | string> }
  | { news: 'conflict-over'; node: string };

export type TimedInput =
  { atMs: number; act: Act; /** who did it, where known */ by?: string } | { atMs: number; node: NodeNews };
