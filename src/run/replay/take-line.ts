/** One line of a recording, taken at its arrival time: a pack waits in its wells' inboxes, an act among their inputs. */
import type { Act } from '../../card/act.ts';
import type { Card } from '../../card/card.ts';
import { readAct } from '../../card/read-act.ts';
import { cardOfNode } from '../../card/read-card.ts';
import { isRead } from '../../card/reads.ts';
import { closeTo, offerPack } from '../../readings/merge.ts';
import {
  excuseAway,
  noteRefused,
  receiveHello,
  receivePack,
  receivePresence,
  tellWellsAgain,
} from '../../readings/node.ts';
import type { Hello, Message, Pack } from '../../wire/messages.ts';
import { readMessage } from '../../wire/read-message.ts';
import { parseRecordingLine, type RecordedLine, type RecordedMessage } from '../../wire/recording.ts';
import { addInput } from '../live/line.ts';
import { noteNews, passNews } from './news.ts';
import { SETTLE_MS } from './settle.ts';
import { addWell, bookOf, countIn, linesOf, retable, type Replay } from './state.ts';
import { cardAt, changeCard as beginCard, readBy } from './table.ts';

/** Remarks about acts that are told in full; the rest are counted. */
const MOST_PROBLEMS = 10;

/** Takes one line, without its end. `root` is the first part of the topics. Never throws for what stands in a line. */
export function takeLine(replay: Replay, root: string, bytes: Uint8Array): void {
  takeRecorded(replay, root, parseRecordingLine(bytes));
}

/** Takes what a line of a recording says, in order of arrival: for whoever makes messages without writing them down first. */
export function takeRecorded(replay: Replay, root: string, line: RecordedLine): void {
  replay.counts.lines++;
  switch (line.is) {
    case 'message':
      goOn(replay, line.tstMs, line.tstMs);
      takeMessage(replay, root, line);
      break;
    case 'act':
      takeAct(replay, line.tstMs, line.act);
      break;
    case 'ignored':
      if (line.why !== 'blank') countIn(replay.counts.ignored, line.why);
      break;
    default:
      line satisfies never;
  }
}

/** Our clock goes on to `nowMs`; silence is judged up to `judgedMs`. */
function goOn(replay: Replay, nowMs: number, judgedMs: number): void {
  passNews(replay, judgedMs);
  if (nowMs > replay.nowMs) replay.nowMs = nowMs;
}

function takeMessage(replay: Replay, root: string, raw: RecordedMessage): void {
  const { topic, payload, retained, tstMs } = raw;
  replay.counts.messages++;
  const message: Message = readMessage({ root, topic, payload, retained, arrivalMs: tstMs });
  switch (message.is) {
    case 'pack':
      takePack(replay, message.pack, tstMs);
      break;
    case 'hello':
      takeHello(replay, message.hello, retained, tstMs);
      break;
    case 'presence': {
      const { state } = bookOf(replay, message.node);
      receivePresence(state, message.presence, retained, tstMs);
      noteNews(replay, state);
      break;
    }
    case 'own':
      break;
    case 'refusal': {
      const { refused, node, boot, seq } = message.refusal;
      countIn(replay.counts.refused, refused);
      const book = node === undefined ? undefined : replay.nodes.get(node);
      if (book && boot !== undefined && seq !== undefined) noteRefused(book.state, boot, seq, tstMs);
      break;
    }
    default:
      message satisfies never;
  }
}

function takePack(replay: Replay, pack: Pack, arrivalMs: number): void {
  const { state } = bookOf(replay, pack.node);
  const receipt = receivePack(state, pack, arrivalMs);
  if (!isRead(replay.table, pack.node)) {
    addWell(replay, cardOfNode(pack.node), { byDefault: true });
    retable(replay);
    tellWellsAgain(state);
  }
  noteNews(replay, state);
  if (receipt.is === 'duplicate') {
    replay.counts.duplicates++;
    return;
  }
  replay.counts.packs++;
  let late = false;
  for (const line of linesOf(replay, pack.node)) {
    // By arrival, and not by how far we have come, so that it does not matter in which pieces time goes on.
    closeTo(line.inbox, arrivalMs - SETTLE_MS);
    if (offerPack(line.inbox, line.well, receipt.placed, replay.table) < Number.POSITIVE_INFINITY)
      late = true;
  }
  if (late) replay.counts.tooLate++;
  for (const column of receipt.placed.columns) replay.counts.readings += column.times.length;
}

function takeHello(replay: Replay, hello: Hello, retained: boolean, arrivalMs: number): void {
  const book = bookOf(replay, hello.node);
  if (hello.fedFrom === undefined) delete book.fedFrom;
  else book.fedFrom = hello.fedFrom;
  receiveHello(book.state, hello, retained, arrivalMs);
  noteNews(replay, book.state);
}

function takeAct(replay: Replay, atMs: number, json: unknown): void {
  replay.counts.acts++;
  const read = readAct(json, { cardOf: (well) => cardAt(replay.periods, well, atMs) });
  // Our own absence is not news: what seems silent since it began is judged only after it.
  const away = 'act' in read && read.act.kind === 'server-away' ? Math.min(read.act.fromMs, atMs) : atMs;
  goOn(replay, atMs, away);
  const problem = 'problem' in read ? read.problem : applyAct(replay, atMs, read.act);
  if (problem === undefined) return;
  replay.counts.badActs++;
  if (replay.counts.problems.length >= MOST_PROBLEMS) return;
  replay.counts.problems.push(`${new Date(atMs).toISOString()}: ${problem}`);
}

/** Gives an act to the wells it is about. Returns why it can't be used, where it can't. */
function applyAct(replay: Replay, atMs: number, act: Act): string | undefined {
  switch (act.kind) {
    case 'card-changed':
      changeCard(replay, atMs, act.card);
      return undefined;
    case 'calibrated':
      for (const line of linesOf(replay, act.node)) addInput(line, { atMs, act });
      return undefined;
    case 'server-away':
      for (const { state } of replay.nodes.values()) {
        excuseAway(state, act.fromMs, atMs);
        noteNews(replay, state);
      }
      passNews(replay, atMs);
      for (const line of replay.lines.values()) addInput(line, { atMs, act });
      return undefined;
    case 'tick':
      return undefined;
    case 'visit-opened':
    case 'visit-closed':
    case 'pinned':
    case 'acknowledged':
    case 'shelved':
    case 'out-of-service':
    case 'back-in-service':
    case 'laid-up':
    case 'expected': {
      const line = replay.lines.get(act.well);
      if (!line) return `Cannot use act ${act.kind}: there is no well ${act.well}`;
      addInput(line, { atMs, act });
      return undefined;
    }
    default:
      return act satisfies never;
  }
}

/** A well's new card counts from `atMs` on, for what it says as well as for where its readings come from. */
function changeCard(replay: Replay, atMs: number, written: Card): void {
  const by = replay.readsBy.get(written.well);
  const card = by === undefined ? written : readBy(written, by);
  const line = replay.lines.get(card.well) ?? addWell(replay, cardOfNode(card.well), {});
  beginCard(replay.periods, card, atMs);
  retable(replay);
  for (const { state } of replay.nodes.values()) {
    tellWellsAgain(state, atMs);
    noteNews(replay, state);
  }
  addInput(line, { atMs, act: { kind: 'card-changed', card } });
}
