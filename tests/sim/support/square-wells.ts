/**
 * Wells as simple as can be, for loads: a pump that runs by the clock, pressure that rises while it
 * runs and falls while it rests.
 */
import { encodeHello } from '../../../src/core/decode/hello.ts';
import { encodePackJson } from '../../../src/core/decode/senml-json/encode-pack.ts';
import type { HelloChannel } from '../../../src/core/decode/messages.ts';
import { BOOT } from './sim-node.ts';

export interface SquareNode {
  name: string;
  channels: readonly ('current' | 'pressure')[];
  /** Runs `onS` of every `everyS`; from round `stuckFrom` on it does not stop. */
  onS: number;
  everyS: number;
  stuckFrom: number;
}

export const START_MS = Date.UTC(2026, 5, 9, 9, 0, 0);
/** Seconds in one pack, one reading a second. */
export const PACK_S = 10;

export function measured(node: SquareNode, channel: 'current' | 'pressure', s: number): number {
  const at = s % node.everyS;
  const stuck = s >= node.stuckFrom * PACK_S;
  const runs = stuck || at < node.onS;
  // A little noise that is the same each time: real readings are never twice the same for long.
  const noise = ((s * 7919) % 13) / 100;
  if (channel === 'current') return Math.round((runs ? 7.8 + noise : noise / 10) * 100) / 100;
  const share = stuck ? 1.1 : at < node.onS ? at / node.onS : 1 - (at - node.onS) / (node.everyS - node.onS);
  return Math.round((276 + 138 * share + noise) * 10) * 100;
}

/** The node's pack of this seq, 1 first. */
export function packOf(node: SquareNode, seq: number): Uint8Array {
  const fromS = (seq - 1) * PACK_S;
  const times = Float64Array.from({ length: PACK_S }, (_, i) => START_MS + (fromS + i) * 1000);
  return encodePackJson({
    node: node.name,
    boot: BOOT,
    seq,
    clock: 'utc',
    columns: node.channels.map((channel) => ({
      channel,
      times,
      values: Float64Array.from({ length: PACK_S }, (_, i) => measured(node, channel, fromS + i)),
    })),
  });
}

export function helloOf(node: SquareNode): Uint8Array {
  const channels = node.channels.map((n): HelloChannel => ({ n, u: n === 'current' ? 'A' : 'Pa', every: 1 }));
  return encodeHello({ node: node.name, contract: 1, boot: BOOT, clock: 'utc', holdsS: 86_400, channels });
}
