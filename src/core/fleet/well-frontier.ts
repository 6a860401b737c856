/**
 * Up to when a well may be passed on, and when time alone lets it go further: until then nobody has
 * to ask it.
 */
import { nodesOf } from '../domain/sources.ts';
import { frontierMs, nodeProgress, releaseMs } from '../readings/frontier.ts';
import { headMs } from '../readings/reading-queue.ts';
import type { NodeState } from '../readings/node.ts';
import type { Fleet } from './fleet.ts';
import { pipelinesForNode } from './routing.ts';
import type { WellPipeline } from './well-pipeline.ts';

/** Asked for twice at every pack: a plain loop. */
function nodesOfWell(fleet: Fleet, pipeline: WellPipeline, nowMs: number): NodeState[] {
  const states: NodeState[] = [];
  for (const { node } of nodesOf(pipeline.state.card, nowMs)) {
    const entry = fleet.nodes.get(node);
    if (entry) states.push(entry.state);
  }
  return states;
}

/** Up to when this well may be passed on now. */
export function frontierOf(fleet: Fleet, pipeline: WellPipeline, nowMs: number): number {
  const progress = nodesOfWell(fleet, pipeline, nowMs).map((state) => nodeProgress(state, nowMs));
  return frontierMs(progress, nowMs);
}

/**
 * When this well, passed on as far as it could be at `nowMs`, can go on though nothing comes: at
 * its next whole minute, its next act or news, or the next reading that waits, once no node holds
 * it back. Infinity for a well that has nothing before it.
 */
export function wellDueMs(fleet: Fleet, pipeline: WellPipeline, nowMs: number): number {
  if (pipeline.fault !== undefined) return Number.POSITIVE_INFINITY;
  const { state, inbox, pendingInputs } = pipeline;
  let targetMs = state.nextMinuteMs === 0 ? Number.POSITIVE_INFINITY : state.nextMinuteMs;
  if (pendingInputs.length > 0) targetMs = Math.min(targetMs, pendingInputs[0]!.atMs);
  for (const queue of inbox.queues) targetMs = Math.min(targetMs, headMs(queue));
  if (targetMs === Number.POSITIVE_INFINITY) return targetMs;
  let dueMs = targetMs;
  for (const node of nodesOfWell(fleet, pipeline, nowMs)) dueMs = Math.max(dueMs, releaseMs(node, targetMs));
  return dueMs;
}

/** How long this node is waited for may have changed. */
export function askWellsOfNode(fleet: Fleet, node: string): void {
  for (const pipeline of pipelinesForNode(fleet, node)) pipeline.dueMs = Number.NEGATIVE_INFINITY;
}
