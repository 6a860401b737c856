/**
 * One message of a node, from bytes to what will be committed: a pack goes to the wells that read
 * from it, a hello or a presence to the node's own book, a refusal to the list of refusals.
 * Nobody's message stops the next.
 */
import { HOUR_MS } from '../../../shared/units/duration.ts';
import { trackNews } from '../../core/fleet/node-news.ts';
import { pipelinesForNode } from '../../core/fleet/routing.ts';
import { askWellsOfNode } from '../../core/fleet/well-frontier.ts';
import { SETTLE_MS } from '../../core/fleet/settling.ts';
import { addPack } from '../../core/readings/inbox.ts';
import { recordRefused, receiveHello, receivePack, receivePresence } from '../../core/readings/node.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import type { Hello, Message, Pack, Presence, Refusal } from '../../core/decode/messages.ts';
import { readMessage } from '../../core/decode/read-message.ts';
import { nodeCeiling } from './ceiling.ts';
import { getOrCreateNode } from './nodes.ts';
import { touchSpokenFor } from './spoken-for.ts';
import type { LiveState, NodeEntry } from './state.ts';

/** A message as the broker handed it over, with when it came. */
export interface ReceivedMessage {
  topic: string;
  payload: Uint8Array;
  retained: boolean;
  arrivalMs: number;
  contentType?: string;
  /**
   * Names that the sender's credential was given beside its own; absent where the broker knows no
   * credential of it.
   */
  given?: () => readonly string[];
  /** Calls back once the message is on disk. */
  acknowledge?: () => void;
}

/** Bytes of a refused message that are kept for a look. */
const REFUSED_SAMPLE_BYTES = 512;

export function handleMessage(live: LiveState, received: ReceivedMessage): void {
  live.counts.messages++;
  const message = readMessage({ root: live.options.root, ...received });
  dispatchMessage(live, received, message);
}

function dispatchMessage(live: LiveState, received: ReceivedMessage, message: Message): void {
  switch (message.is) {
    case 'pack':
      handlePack(live, received, message.pack);
      break;
    case 'hello':
      handleHello(live, received, message.hello);
      break;
    case 'presence':
      handlePresence(live, received, message.node, message.presence);
      break;
    case 'refusal':
      recordRefusal(live, received, message.refusal);
      break;
    case 'from-server':
      break;
    default:
      message satisfies never;
  }
}

function recordRefusal(
  live: LiveState,
  received: ReceivedMessage,
  refusal: Refusal,
  countOnly = false,
): void {
  live.counts.refused++;
  const { node, refused, detail, boot, seq } = refusal;
  refusedRow(live, received, { reason: refused, detail, node }, countOnly);
  const entry = node === undefined ? undefined : live.nodes.get(node);
  if (!entry || boot === undefined || seq === undefined) return;
  recordRefused(entry.state, boot, seq, received.arrivalMs);
  entry.ackDue = true;
  entry.unsaved = true;
}

/**
 * The sender's entry; undefined, and its message refused, where one server takes no further node.
 */
function entryFor(live: LiveState, came: ReceivedMessage, node: string): NodeEntry | undefined {
  const why = live.nodes.has(node) ? undefined : nodeCeiling(live, node);
  if (why === undefined) return getOrCreateNode(live, node);
  const shown = isRecent(live.ceilingShownMs, came);
  if (!shown) live.ceilingShownMs = came.arrivalMs;
  recordRefusal(
    live,
    came,
    { refused: 'too-many-nodes', detail: `Node ${node} is not taken: ${why}.`, node },
    shown,
  );
  return undefined;
}

/** `countOnly`: its like is kept for a look already. */
function refusedRow(
  live: LiveState,
  { arrivalMs, topic, payload }: ReceivedMessage,
  { reason, detail, node }: { reason: string; detail: string; node: string | undefined },
  countOnly: boolean,
): void {
  const head = Buffer.from(payload.subarray(0, REFUSED_SAMPLE_BYTES)).toString('base64');
  live.changes.push({
    change: 'refused',
    row: {
      atMs: arrivalMs,
      topic,
      reason,
      detail,
      head,
      ...(node !== undefined && { node }),
      ...(countOnly && { countOnly }),
    },
  });
}

function handlePack(live: LiveState, received: ReceivedMessage, pack: Pack): void {
  const entry = entryFor(live, received, pack.node);
  if (!entry) return;
  if (!entry.approved) {
    rejectPack(live, received, entry, pack.node);
    return;
  }
  const receipt = receivePack(entry.state, pack, received.arrivalMs);
  entry.ackDue = true;
  entry.unsaved = true;
  markNewsDirty(live, pack.node, entry);
  if (receipt.is === 'duplicate') {
    live.counts.duplicates++;
    return;
  }
  live.counts.packs++;
  live.changes.push({ change: 'pack', pack: receipt.placed });
  if (live.hasViewers) live.liveEvents.push({ placed: receipt.placed });
  dispatchPack(live, receipt.placed, received.arrivalMs);
}

/**
 * What a node does wrong it does every few seconds for as long as nobody helps: one message an hour
 * is kept for a look, so that it hides no other.
 */
const SHOWN_EVERY_MS = HOUR_MS;

function isRecent(shownMs: number | undefined, came: ReceivedMessage): boolean {
  return shownMs !== undefined && came.arrivalMs - shownMs < SHOWN_EVERY_MS;
}

function rejectPack(live: LiveState, received: ReceivedMessage, entry: NodeEntry, node: string): void {
  entry.ackDue = true;
  const recordedRecently = isRecent(entry.rejectionRecordedMs, received);
  if (!recordedRecently) entry.rejectionRecordedMs = received.arrivalMs;
  const detail = `Node ${node} is pending approval; it was told to hold its packs.`;
  recordRefusal(live, received, { refused: 'not-let-in', detail, node }, recordedRecently);
}

/**
 * Gives a placed pack to the wells that read from it; what is late marks where they are to run
 * again from.
 */
function dispatchPack(live: LiveState, placed: PlacedPack, nowMs: number): void {
  for (const column of placed.columns) live.counts.readings += column.times.length;
  for (const pipeline of pipelinesForNode(live, placed.node)) {
    // Of a well that a fault of ours stopped nothing waits in memory: it will be run again from
    // what is kept.
    if (pipeline.fault !== undefined) continue;
    live.dirtyWells.add(pipeline);
    const lateMs = addPack(pipeline.inbox, pipeline.well, placed, live.readTable);
    if (lateMs === Number.POSITIVE_INFINITY) continue;
    // Stored, counted, and told to nobody: what is that old has settled (contract, section 4).
    if (lateMs < nowMs - SETTLE_MS) {
      live.counts.tooLate++;
      continue;
    }
    if (pipeline.rerunFromMs !== undefined && pipeline.rerunFromMs <= lateMs) continue;
    pipeline.rerunFromMs = lateMs;
    live.changes.push({ change: 'rerun-mark', well: pipeline.well, fromMs: lateMs });
  }
}

function handleHello(live: LiveState, received: ReceivedMessage, hello: Hello): void {
  const entry = entryFor(live, received, hello.node);
  if (!entry) return;
  entry.hello = hello;
  entry.ackDue = true;
  receiveHello(entry.state, hello, received.retained, received.arrivalMs);
  live.dirtyNodes.add(hello.node);
  trackNews(live, entry.state);
  askWellsOfNode(live, hello.node);
  // Our own broker tells again at its start what it retained: its names counted when they came.
  if (received.retained && live.options.approveAll) return;
  const given = received.given?.();
  const ignored = touchSpokenFor(live, entry, hello, { given, nowMs: received.arrivalMs });
  if (ignored === undefined) return;
  const shown = isRecent(entry.ignoredShownMs, received);
  if (!shown) entry.ignoredShownMs = received.arrivalMs;
  refusedRow(live, received, { reason: 'ignored-names', detail: ignored, node: hello.node }, shown);
}

function handlePresence(live: LiveState, received: ReceivedMessage, node: string, presence: Presence): void {
  const entry = entryFor(live, received, node);
  if (!entry) return;
  receivePresence(entry.state, presence, received.retained, received.arrivalMs);
  entry.unsaved = true;
  markNewsDirty(live, node, entry);
}

/**
 * News that waits for the next beat is in the node's book alone: a crash before then must not lose
 * that a node is back.
 */
function markNewsDirty(live: LiveState, node: string, entry: NodeEntry): void {
  trackNews(live, entry.state);
  if (entry.state.news.length > 0) live.dirtyNodes.add(node);
}
