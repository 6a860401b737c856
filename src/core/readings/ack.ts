/**
 * What `kept` says of a node (contract, section 4): of which packs nothing more is wanted, because
 * they are committed, refused, or known to be lost. It never claims a pack that only might have
 * come.
 */
import type { PackAck } from '../decode/server-messages.ts';
import { ackedTo, type BootState } from './boot.ts';
import type { NodeState } from './node-state.ts';

/** Undefined for a node that never named a boot: there is nothing to say to it. */
export function ackPayload(state: NodeState): PackAck | undefined {
  const boots = [...state.boots].sort(newestFirst);
  const [newest, ...others] = boots;
  if (!newest) return undefined;
  const also = newest.ranges
    .filter((range) => range.from > 1)
    .map((range): [number, number] => [range.from, range.to]);
  return {
    boot: newest.boot,
    seq: ackedTo(newest),
    ...(also.length > 0 && { also }),
    ...(others.length > 0 && { others: others.map((boot) => ({ boot: boot.boot, seq: ackedTo(boot) })) }),
  };
}

/** By when their readings were taken; a boot without any is as new as its last message. */
function newestFirst(a: BootState, b: BootState): number {
  return (b.toMs ?? b.lastActivityMs) - (a.toMs ?? a.lastActivityMs) || b.boot - a.boot;
}
