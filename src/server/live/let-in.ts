/**
 * Somebody says that a waiting node is one of ours: its packs are kept from now on, and the names
 * that it speaks for count.
 */
import { isSourceNode } from '../../core/domain/sources.ts';
import { trackNews } from '../../core/fleet/node-news.ts';
import { republishFullScale } from '../../core/readings/node.ts';
import { wellCeiling } from './ceiling.ts';
import { ensureWellForNode } from './nodes.ts';
import { touchSpokenFor } from './spoken-for.ts';
import type { LiveState } from './state.ts';

/** Returns why not, in a sentence. The change is pushed; the caller commits. */
export function letNodeIn(live: LiveState, node: string, nowMs: number): string | undefined {
  const entry = live.nodes.get(node);
  if (!entry) return `No node ${node} was heard`;
  const full = entry.approved || isSourceNode(live.readTable, node) ? undefined : wellCeiling(live);
  if (full !== undefined) return `Cannot let ${node} in: ${full}`;
  entry.approved = true;
  entry.ackDue = true;
  ensureWellForNode(live, node);
  // Behind our own broker its hello brought its credential along; here nobody but the hello knows
  // the names.
  if (entry.hello && !live.options.approveAll)
    touchSpokenFor(live, entry, entry.hello, { given: undefined, nowMs });
  republishFullScale(entry.state);
  trackNews(live, entry.state);
  live.dirtyNodes.add(node);
  live.wakeAtMs = Number.NEGATIVE_INFINITY;
  return undefined;
}
