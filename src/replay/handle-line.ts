/**
 * One line of a recording, taken at its arrival time: a pack waits in its wells' inboxes, an act
 * among their inputs.
 */
import type { Act } from '../core/domain/act.ts';
import { readAct } from '../core/domain/read-act.ts';
import { isSourceNode } from '../core/domain/sources.ts';
import { excuseOutage, trackNews } from '../core/fleet/node-news.ts';
import { cardAt, withDefaultNode } from '../core/fleet/read-table.ts';
import { addDefaultWell, applyNewCard, pipelinesForNode, pipelinesOfAct } from '../core/fleet/routing.ts';
import { SETTLE_MS } from '../core/fleet/settling.ts';
import { addInput } from '../core/fleet/well-pipeline.ts';
import { closeUpTo, addPack } from '../core/readings/inbox.ts';
import {
  recordRefused,
  receiveHello,
  receivePack,
  receivePresence,
  republishFullScale,
} from '../core/readings/node.ts';
import type { Hello, Message, Pack } from '../core/decode/messages.ts';
import { readMessage } from '../core/decode/read-message.ts';
import { parseRecordingLine, type RecordedLine, type RecordedMessage } from '../core/decode/recording.ts';
import { tellNews } from './settle.ts';
import { getOrCreateNode, increment, type Replay } from './state.ts';

/** Remarks about acts that are told in full; the rest are counted. */
const MAX_PROBLEMS = 10;

/**
 * Takes one line, without its end. `root` is the first part of the topics. Never throws for what
 * stands in a line.
 */
export function handleLine(replay: Replay, root: string, bytes: Uint8Array): void {
  handleRecorded(replay, root, parseRecordingLine(bytes));
}

/**
 * Takes what a line of a recording says, in order of arrival: for whoever makes messages without
 * writing them down first.
 */
export function handleRecorded(replay: Replay, root: string, line: RecordedLine): void {
  replay.counts.lines++;
  switch (line.is) {
    case 'message':
      advanceClock(replay, line.tstMs, line.tstMs);
      handleMessage(replay, root, line);
      break;
    case 'act':
      handleAct(replay, line.tstMs, line.act);
      break;
    case 'ignored':
      if (line.reason !== 'blank') increment(replay.counts.ignored, line.reason);
      break;
    default:
      line satisfies never;
  }
}

/** Our clock goes on to `nowMs`; silence is judged up to `judgedMs`. */
function advanceClock(replay: Replay, nowMs: number, judgedMs: number): void {
  tellNews(replay, judgedMs);
  if (nowMs > replay.nowMs) replay.nowMs = nowMs;
}

function handleMessage(replay: Replay, root: string, raw: RecordedMessage): void {
  const { topic, payload, retained, tstMs } = raw;
  replay.counts.messages++;
  const message: Message = readMessage({ root, topic, payload, retained, arrivalMs: tstMs });
  switch (message.is) {
    case 'pack':
      handlePack(replay, message.pack, tstMs);
      break;
    case 'hello':
      handleHello(replay, message.hello, retained, tstMs);
      break;
    case 'presence': {
      const { state } = getOrCreateNode(replay, message.node);
      receivePresence(state, message.presence, retained, tstMs);
      trackNews(replay, state);
      break;
    }
    case 'from-server':
      break;
    case 'refusal': {
      const { refused, node, boot, seq } = message.refusal;
      increment(replay.counts.refused, refused);
      const entry = node === undefined ? undefined : replay.nodes.get(node);
      if (entry && boot !== undefined && seq !== undefined) recordRefused(entry.state, boot, seq, tstMs);
      break;
    }
    default:
      message satisfies never;
  }
}

function handlePack(replay: Replay, pack: Pack, arrivalMs: number): void {
  const { state } = getOrCreateNode(replay, pack.node);
  const receipt = receivePack(state, pack, arrivalMs);
  if (!isSourceNode(replay.readTable, pack.node)) {
    addDefaultWell(replay, pack.node);
    republishFullScale(state);
  }
  trackNews(replay, state);
  if (receipt.is === 'duplicate') {
    replay.counts.duplicates++;
    return;
  }
  replay.counts.packs++;
  let late = false;
  for (const pipeline of pipelinesForNode(replay, pack.node)) {
    // By arrival, and not by how far we have come, so that it does not matter in which pieces time
    // goes on.
    closeUpTo(pipeline.inbox, arrivalMs - SETTLE_MS);
    if (addPack(pipeline.inbox, pipeline.well, receipt.placed, replay.readTable) < Number.POSITIVE_INFINITY)
      late = true;
  }
  if (late) replay.counts.tooLate++;
  for (const column of receipt.placed.columns) replay.counts.readings += column.times.length;
}

function handleHello(replay: Replay, hello: Hello, retained: boolean, arrivalMs: number): void {
  const entry = getOrCreateNode(replay, hello.node);
  entry.hello = hello;
  receiveHello(entry.state, hello, retained, arrivalMs);
  trackNews(replay, entry.state);
}

function handleAct(replay: Replay, atMs: number, json: unknown): void {
  replay.counts.acts++;
  const read = readAct(json, { cardOf: (well) => cardAt(replay.periods, well, atMs) });
  // Our own absence is not news: what seems silent since it began is judged only after it.
  const away = 'act' in read && read.act.kind === 'server-away' ? Math.min(read.act.fromMs, atMs) : atMs;
  advanceClock(replay, atMs, away);
  const problem = 'problem' in read ? read.problem : applyAct(replay, atMs, read.act);
  if (problem === undefined) return;
  replay.counts.badActs++;
  if (replay.counts.problems.length >= MAX_PROBLEMS) return;
  replay.counts.problems.push(`${new Date(atMs).toISOString()}: ${problem}`);
}

/** Gives an act to the wells it is about. Returns why it can't be used, where it can't. */
function applyAct(replay: Replay, atMs: number, act: Act): string | undefined {
  if (act.kind === 'tick') return undefined;
  if (act.kind === 'card-changed') {
    const node = replay.defaultNodes.get(act.card.well);
    const card = node === undefined ? act.card : withDefaultNode(act.card, node);
    addInput(applyNewCard(replay, card, atMs), { atMs, act: { kind: 'card-changed', card } });
    return undefined;
  }
  if (act.kind === 'server-away') {
    excuseOutage(replay, act.fromMs, atMs);
    tellNews(replay, atMs);
  }
  if ('well' in act && !replay.pipelines.has(act.well))
    return `Cannot use act ${act.kind}: there is no well ${act.well}`;
  for (const pipeline of pipelinesOfAct(replay, act)) addInput(pipeline, { atMs, act });
  return undefined;
}
