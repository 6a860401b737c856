/**
 * The further names of a gateway's hello (`speaksFor`). A name makes a node, and with our own
 * broker a well, so only names that somebody gave to the sender count: those of its credential;
 * behind an outside broker, where we know no credential, those of a node that was let in. The
 * others make nothing and are counted (contract, section 7).
 */
import type { Hello } from '../decode/messages.ts';
import { nodeCeiling } from './ceiling.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet, FleetNode } from './fleet.ts';
import { getOrCreateNode } from './nodes.ts';
import type { FleetReason } from './reason-text.ts';

/** Names told of one hello: enough to know which list is wrong. */
const MAX_NAMES_LISTED = 5;

/**
 * Makes the named nodes known as far as they count. Returns why where names were ignored,
 * which are then counted.
 */
export function addSpokenFor(
  fleet: Fleet,
  entry: FleetNode,
  hello: Hello,
  { given, nowMs }: { given: readonly string[] | undefined; nowMs: number },
  emit: EmitEffect,
): FleetReason | undefined {
  const names = [...new Set(hello.speaksFor)].filter((name) => name !== hello.node);
  const counts = countedNames(fleet, entry, given);
  const over: string[] = [];
  for (const name of names.filter(counts.has)) {
    if (!fleet.nodes.has(name) && nodeCeiling(fleet, name) !== undefined) over.push(name);
    else getOrCreateNode(fleet, name, emit);
  }
  const others = names.filter((name) => !counts.has(name));
  const ignored = [...others, ...over];
  if (ignored.length === 0) return undefined;
  const why = {
    reason: 'names-ignored',
    figures: {
      node: hello.node,
      names: ignored.slice(0, MAX_NAMES_LISTED),
      more: Math.max(ignored.length - MAX_NAMES_LISTED, 0),
      // With none but those over the ceiling, it is reached.
      why: others.length > 0 ? counts.why : nodeCeiling(fleet, over[0]!)!,
    },
  } as const;
  entry.ignored = { names: (entry.ignored?.names ?? 0) + ignored.length, why, lastMs: nowMs };
  return why;
}

/** Which names count, and why the others do not. */
function countedNames(
  fleet: Fleet,
  entry: FleetNode,
  given: readonly string[] | undefined,
): { has: (name: string) => boolean; why: 'pending-approval' | 'not-given' } {
  if (!fleet.rules.approveAll) return { has: () => entry.approved, why: 'pending-approval' };
  const own = new Set(given);
  return { has: (name) => own.has(name), why: 'not-given' };
}
