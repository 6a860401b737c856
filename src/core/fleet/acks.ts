/** What nodes are told of what is kept of them, and when: only after the commit. */
import type { PackAck } from '../decode/server-messages.ts';
import { ackPayload } from '../readings/ack.ts';
import type { Fleet, FleetNode } from './fleet.ts';

/** Once a second a node at most (contract, section 4). */
const ACK_INTERVAL_MS = 1000;

export interface DueAck {
  node: string;
  ack: PackAck | { wait: true };
}

/** When this node is told; Infinity where it has nothing to hear. */
export function ackDueMs({ ackDue, ackSentAtMs }: FleetNode): number {
  return ackDue ? ackSentAtMs + ACK_INTERVAL_MS : Number.POSITIVE_INFINITY;
}

/** Acknowledgements that are due now; they count as sent. */
export function takeDueAcks(fleet: Fleet, nowMs: number): DueAck[] {
  if (!fleet.rules.acknowledges) return [];
  const due: DueAck[] = [];
  for (const [node, entry] of fleet.nodes) {
    if (nowMs < ackDueMs(entry)) continue;
    entry.ackDue = false;
    entry.ackSentAtMs = nowMs;
    const ack = entry.approved ? ackPayload(entry.state) : { wait: true as const };
    if (ack) due.push({ node, ack });
  }
  return due;
}
