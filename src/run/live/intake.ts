/**
 * One message of a node, from bytes to what will be committed: a pack goes to the wells that read from it, a hello or a presence to
 * the node's own book, a refusal to the list of refusals. Nobody's message stops the next.
 */
import { offerPack } from '../../readings/merge.ts';
import { noteRefused, receiveHello, receivePack, receivePresence } from '../../readings/node.ts';
import type { PlacedPack } from '../../readings/placed.ts';
import type { Hello, Message, Pack, Presence, Refusal } from '../../wire/messages.ts';
import { readMessage } from '../../wire/read-message.ts';
import { nodeCeiling } from './ceiling.ts';
import { feedLines, touchNode } from './nodes.ts';
import { touchSpokenFor } from './spoken-for.ts';
import type { LiveState, NodeEntry } from './state.ts';

/** A message as the broker handed it over, with when it came. */
export interface Came {
  topic: string;
  payload: Uint8Array;
  retained: boolean;
  arrivalMs: number;
  contentType?: string;
  /** Names that the sender's credential was given beside its own; absent where the broker knows no credential of it. */
  given?: () => readonly string[];
  /** Calls back once the message is on disk. */
  kept?: () => void;
}

/** Bytes of a refused message that are kept for a look. */
const HEAD_BYTES = 512;
const SETTLE_MS = 7 * 86_400_000;

export function takeMessage(live: LiveState, came: Came): void {
  live.counts.messages++;
  const message = readMessage({ root: live.options.root, ...came });
  takeRead(live, came, message);
}

function takeRead(live: LiveState, came: Came, message: Message): void {
  switch (message.is) {
    case 'pack':
      takePack(live, came, message.pack);
      break;
    case 'hello':
      takeHello(live, came, message.hello);
      break;
    case 'presence':
      takePresence(live, came, message.node, message.presence);
      break;
    case 'refusal':
      refuse(live, came, message.refusal);
      break;
    case 'own':
      break;
    default:
      message satisfies never;
  }
}

function refuse(live: LiveState, came: Came, refusal: Refusal, countOnly = false): void {
  live.counts.refused++;
  const { node, refused, detail, boot, seq } = refusal;
  refusedRow(live, came, { reason: refused, detail, node }, countOnly);
  const entry = node === undefined ? undefined : live.nodes.get(node);
  if (!entry || boot === undefined || seq === undefined) return;
  noteRefused(entry.state, boot, seq, came.arrivalMs);
  entry.keptDue = true;
  entry.unsaved = true;
}

/** The sender's entry; undefined, and its message refused, where one server takes no further node. */
function entryFor(live: LiveState, came: Came, node: string): NodeEntry | undefined {
  const why = live.nodes.has(node) ? undefined : nodeCeiling(live, node);
  if (why === undefined) return touchNode(live, node);
  const shown = isRecent(live.ceilingShownMs, came);
  if (!shown) live.ceilingShownMs = came.arrivalMs;
  refuse(
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
  { arrivalMs, topic, payload }: Came,
  { reason, detail, node }: { reason: string; detail: string; node: string | undefined },
  countOnly: boolean,
): void {
  const head = Buffer.from(payload.subarray(0, HEAD_BYTES)).toString('base64');
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

function takePack(live: LiveState, came: Came, pack: Pack): void {
  const entry = entryFor(live, came, pack.node);
  if (!entry) return;
  if (!entry.letIn) {
    turnAway(live, came, entry, pack.node);
    return;
  }
  const receipt = receivePack(entry.state, pack, came.arrivalMs);
  entry.keptDue = true;
  entry.unsaved = true;
  keepNews(live, pack.node, entry);
  if (receipt.is === 'duplicate') {
    live.counts.duplicates++;
    return;
  }
  live.counts.packs++;
  live.changes.push({ change: 'pack', pack: receipt.placed });
  if (live.looked) live.shown.push({ placed: receipt.placed });
  handOn(live, receipt.placed, came.arrivalMs);
}

/** What a node does wrong it does every few seconds for as long as nobody helps: one message an hour is kept for a look, so that it hides no other. */
const SHOWN_EVERY_MS = 3_600_000;

function isRecent(shownMs: number | undefined, came: Came): boolean {
  return shownMs !== undefined && came.arrivalMs - shownMs < SHOWN_EVERY_MS;
}

function turnAway(live: LiveState, came: Came, entry: NodeEntry, node: string): void {
  entry.keptDue = true;
  const shown = isRecent(entry.turnedAwayMs, came);
  if (!shown) entry.turnedAwayMs = came.arrivalMs;
  const detail = `Node ${node} waits to be let in; it was told to hold its packs.`;
  refuse(live, came, { refused: 'not-let-in', detail, node }, shown);
}

/** Gives a placed pack to the wells that read from it; what is late marks where they are to run again from. */
function handOn(live: LiveState, placed: PlacedPack, nowMs: number): void {
  for (const column of placed.columns) live.counts.readings += column.times.length;
  for (const line of feedLines(live, placed.node)) {
    // Of a well that a fault of ours stopped nothing waits in memory: it will be run again from what is kept.
    if (line.fault !== undefined) continue;
    live.touched.add(line);
    const lateMs = offerPack(line.inbox, line.well, placed, live.table);
    if (lateMs === Number.POSITIVE_INFINITY) continue;
    // Stored, counted, and told to nobody: what is that old has settled (contract, section 4).
    if (lateMs < nowMs - SETTLE_MS) {
      live.counts.tooLate++;
      continue;
    }
    if (line.rerunFromMs !== undefined && line.rerunFromMs <= lateMs) continue;
    line.rerunFromMs = lateMs;
    live.changes.push({ change: 'rerun-mark', well: line.well, fromMs: lateMs });
  }
}

function takeHello(live: LiveState, came: Came, hello: Hello): void {
  const entry = entryFor(live, came, hello.node);
  if (!entry) return;
  entry.hello = hello;
  entry.keptDue = true;
  receiveHello(entry.state, hello, came.retained, came.arrivalMs);
  live.toSave.add(hello.node);
  // Our own broker tells again at its start what it retained: its names counted when they came.
  if (came.retained && live.options.letInAll) return;
  const given = came.given?.();
  const ignored = touchSpokenFor(live, entry, hello, { given, nowMs: came.arrivalMs });
  if (ignored === undefined) return;
  const shown = isRecent(entry.ignoredShownMs, came);
  if (!shown) entry.ignoredShownMs = came.arrivalMs;
  refusedRow(live, came, { reason: 'ignored-names', detail: ignored, node: hello.node }, shown);
}

function takePresence(live: LiveState, came: Came, node: string, presence: Presence): void {
  const entry = entryFor(live, came, node);
  if (!entry) return;
  receivePresence(entry.state, presence, came.retained, came.arrivalMs);
  entry.unsaved = true;
  keepNews(live, node, entry);
}

/** News that waits for the next beat is in the node's book alone: a crash before then must not lose that a node is back. */
function keepNews(live: LiveState, node: string, entry: NodeEntry): void {
  if (entry.state.news.length > 0) live.toSave.add(node);
}
