/**
 * One message of a node: a pack goes to the wells that read from it, a hello or a presence to the
 * node's own state, a refusal to the list of refusals. Nobody's message stops the next.
 */
import { HOUR_MS } from '../../../shared/units/duration.ts';
import type { Message, Pack, Refusal } from '../decode/messages.ts';
import { refuse } from '../decode/refuse.ts';
import { addPack, closeUpTo } from '../readings/inbox.ts';
import { isSourceNode } from '../domain/sources.ts';
import {
  receiveHello,
  receivePack,
  receivePresence,
  recordRefused,
  republishFullScale,
} from '../readings/node.ts';
import type { PlacedPack } from '../readings/placed-pack.ts';
import { nodeCeiling } from './ceiling.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet, FleetNode } from './fleet.ts';
import { trackNews } from './node-news.ts';
import { getOrCreateNode } from './nodes.ts';
import { addDefaultWell, pipelinesForNode } from './routing.ts';
import { SETTLE_MS } from './settling.ts';
import { addSpokenFor } from './spoken-for.ts';
import { askWellsOfNode } from './well-frontier.ts';
import type { WellPipeline } from './well-pipeline.ts';

export interface MessageInput {
  message: Message;
  /**
   * Names that the sender's credential was given beside its own; absent where nobody knows a
   * credential of it.
   */
  given?: readonly string[];
}

export function handleMessage(fleet: Fleet, input: MessageInput, nowMs: number, emit: EmitEffect): void {
  const { message } = input;
  switch (message.is) {
    case 'pack':
      handlePack(fleet, message.pack, nowMs, emit);
      break;
    case 'hello':
      handleHello(fleet, message, input.given, nowMs, emit);
      break;
    case 'presence':
      handlePresence(fleet, message, nowMs, emit);
      break;
    case 'refusal':
      recordRefusal(fleet, message.refusal, { nowMs, countOnly: false }, emit);
      break;
    case 'from-server':
      break;
    default:
      message satisfies never;
  }
}

function recordRefusal(
  fleet: Fleet,
  { refused, why, node, boot, seq }: Refusal,
  { nowMs, countOnly }: { nowMs: number; countOnly: boolean },
  emit: EmitEffect,
): void {
  emit({ is: 'refused', refusal: { refused, why, ...(node !== undefined && { node }) }, countOnly });
  const entry = node === undefined ? undefined : fleet.nodes.get(node);
  if (!entry || boot === undefined || seq === undefined) return;
  recordRefused(entry.state, boot, seq, nowMs);
  entry.ackDue = true;
  entry.unsaved = true;
}

/**
 * What a node does wrong it does every few seconds for as long as nobody helps: one message an hour
 * is kept for a look, so that it hides no other.
 */
const SHOWN_EVERY_MS = HOUR_MS;

function isRecent(shownMs: number | undefined, nowMs: number): boolean {
  return shownMs !== undefined && nowMs - shownMs < SHOWN_EVERY_MS;
}

/** The sender's entry; undefined, and its message refused, where no further node is taken. */
function entryFor(fleet: Fleet, node: string, nowMs: number, emit: EmitEffect): FleetNode | undefined {
  const ceiling = fleet.nodes.has(node) ? undefined : nodeCeiling(fleet, node);
  if (ceiling === undefined) return getOrCreateNode(fleet, node, emit);
  const countOnly = isRecent(fleet.ceilingShownMs, nowMs);
  if (!countOnly) fleet.ceilingShownMs = nowMs;
  const refusal = refuse('too-many-nodes', 'not-taken', { node, ceiling });
  recordRefusal(fleet, { ...refusal, node }, { nowMs, countOnly }, emit);
  return undefined;
}

function handlePack(fleet: Fleet, pack: Pack, nowMs: number, emit: EmitEffect): void {
  const entry = entryFor(fleet, pack.node, nowMs, emit);
  if (!entry) return;
  entry.ackDue = true;
  if (!entry.approved) {
    rejectPack(fleet, entry, pack.node, nowMs, emit);
    return;
  }
  const receipt = receivePack(entry.state, pack, nowMs);
  entry.unsaved = true;
  if (fleet.rules.runsOnce && !isSourceNode(fleet.readTable, pack.node)) {
    addDefaultWell(fleet, pack.node);
    republishFullScale(entry.state);
  }
  saveWaitingNews(fleet, entry, emit);
  if (receipt.is === 'duplicate') {
    emit({ is: 'duplicate' });
    return;
  }
  emit({ is: 'pack', placed: receipt.placed });
  dispatchPack(fleet, receipt.placed, nowMs, emit);
}

function rejectPack(fleet: Fleet, entry: FleetNode, node: string, nowMs: number, emit: EmitEffect): void {
  const countOnly = isRecent(entry.rejectionRecordedMs, nowMs);
  if (!countOnly) entry.rejectionRecordedMs = nowMs;
  const refusal = refuse('not-let-in', 'pending-approval', { node });
  recordRefusal(fleet, { ...refusal, node }, { nowMs, countOnly }, emit);
}

/** Gives a placed pack to the wells that read from it. */
function dispatchPack(fleet: Fleet, placed: PlacedPack, nowMs: number, emit: EmitEffect): void {
  let tooLate = false;
  for (const pipeline of pipelinesForNode(fleet, placed.node)) {
    // Of a well that a fault of ours stopped nothing waits in memory: it will be run again from
    // what is kept.
    if (pipeline.fault !== undefined) continue;
    fleet.dirtyWells.add(pipeline);
    // By arrival, and not by how far we have come, so that it does not matter in which pieces the
    // time of a recording goes on.
    if (fleet.rules.runsOnce) closeUpTo(pipeline.inbox, nowMs - SETTLE_MS);
    const lateMs = addPack(pipeline.inbox, pipeline.well, placed, fleet.readTable);
    if (lateMs === Number.POSITIVE_INFINITY) continue;
    // What is that old has settled (contract, section 4).
    if (fleet.rules.runsOnce || lateMs < nowMs - SETTLE_MS) tooLate = true;
    else markRerun(pipeline, lateMs, emit);
  }
  if (tooLate) emit({ is: 'too-late' });
}

/** What is late marks where its well is to run again from. */
function markRerun(pipeline: WellPipeline, fromMs: number, emit: EmitEffect): void {
  if (pipeline.rerunFromMs !== undefined && pipeline.rerunFromMs <= fromMs) return;
  pipeline.rerunFromMs = fromMs;
  emit({ is: 'rerun-mark', well: pipeline.well, fromMs });
}

function handleHello(
  fleet: Fleet,
  { hello, retained }: Extract<Message, { is: 'hello' }>,
  given: readonly string[] | undefined,
  nowMs: number,
  emit: EmitEffect,
): void {
  const { node } = hello;
  const entry = entryFor(fleet, node, nowMs, emit);
  if (!entry) return;
  entry.hello = hello;
  entry.ackDue = true;
  receiveHello(entry.state, hello, retained, nowMs);
  emit({ is: 'node-changed', node });
  trackNews(fleet, entry.state);
  askWellsOfNode(fleet, node);
  // Our own broker tells again at its start what it retained: its names counted when they came.
  if (retained && fleet.rules.approveAll) return;
  const why = addSpokenFor(fleet, entry, hello, { given, nowMs }, emit);
  if (why === undefined) return;
  const countOnly = isRecent(entry.ignoredShownMs, nowMs);
  if (!countOnly) entry.ignoredShownMs = nowMs;
  emit({ is: 'ignored-names', node, why, countOnly });
}

function handlePresence(
  fleet: Fleet,
  { node, presence, retained }: Extract<Message, { is: 'presence' }>,
  nowMs: number,
  emit: EmitEffect,
): void {
  const entry = entryFor(fleet, node, nowMs, emit);
  if (!entry) return;
  receivePresence(entry.state, presence, retained, nowMs);
  entry.unsaved = true;
  saveWaitingNews(fleet, entry, emit);
}

/**
 * News that waits to be dispatched is in the node's state alone: a crash before then must not lose
 * that a node is back.
 */
function saveWaitingNews(fleet: Fleet, { state }: FleetNode, emit: EmitEffect): void {
  trackNews(fleet, state);
  if (state.news.length > 0) emit({ is: 'node-changed', node: state.node });
}
