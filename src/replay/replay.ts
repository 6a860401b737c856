/**
 * `stillwell replay` (contract, section 6): a recording through the same engine as the live server,
 * with the recording's own time, to lines on stdout. What is held at once is a week of readings and
 * a day of lines, however long the recording is.
 */
import { statSync } from 'node:fs';
import type { Readable } from 'node:stream';
import type { WellEvent } from '../../shared/api/events.ts';
import { systemReason } from '../../shared/text/en/system-reasons.ts';
import { DEFAULT_ROOT } from '../core/decode/topics.ts';
import { readCards } from './cards.ts';
import { readLines } from './lines.ts';
import { newProgress } from './progress.ts';
import { finish, settle } from './settle.ts';
import { increment, newReplay, type Replay } from './state.ts';
import { summaryOf } from './summary.ts';
import { handleLine } from './handle-line.ts';
import { texts } from './texts.ts';

export interface ReplayRequest {
  /** A file, or `-` for stdin. */
  recording: string;
  /** As after `--card`: CARD.json or NODE=CARD.json. */
  cards: readonly string[];
  /** First part of the topics. */
  root?: string;
}

export interface ReplayIo {
  stdin: Readable;
  /** Takes whole lines; resolves when more may come. */
  out: (text: string) => Promise<void> | void;
  err: (line: string) => void;
  /** True where a bar may be drawn on stderr. */
  progress: boolean;
}

const EXIT_OK = 0;
const EXIT_FAULT = 1;
const EXIT_UNUSABLE = 2;
/** Lines are written in pieces of about this size. */
const WRITE_CHARS = 1 << 16;

/**
 * Runs a recording. Returns the exit code: 0; 2 for a card or a file that cannot be used, or a file
 * with no line that can; 1 if a fault of our own stopped a well.
 */
export async function runReplay(request: ReplayRequest, io: ReplayIo): Promise<number> {
  const read = readCards(request.cards);
  if ('problem' in read) {
    io.err(read.problem);
    return EXIT_UNUSABLE;
  }
  const replay = newReplay(read.cards, read.defaultNodes);
  try {
    await runLines(replay, request, io);
  } catch (error) {
    if (!(error instanceof FileError)) throw error;
    io.err(texts().readRecording({ recording: request.recording, message: error.message }));
    return EXIT_UNUSABLE;
  }
  for (const line of summaryOf(replay)) io.err(line);
  if (isUnusable(replay)) {
    io.err(texts().noneOfItsLinesCould({ recording: request.recording, lines: replay.counts.lines }));
    return EXIT_UNUSABLE;
  }
  return replay.faults.length > 0 ? EXIT_FAULT : EXIT_OK;
}

/**
 * It holds lines, and nothing of them went into the engine: some other file, or another root of
 * topics.
 */
function isUnusable({ counts }: Replay): boolean {
  const sum = (counted: ReadonlyMap<string, number>): number =>
    [...counted.values()].reduce((all, count) => all + count, 0);
  const used = counts.messages - sum(counts.refused) + counts.acts - counts.badActs;
  return used === 0 && (counts.messages + counts.acts > 0 || sum(counts.ignored) > 0);
}

/** The file, and not our program, is to blame. */
class FileError extends Error {}

async function runLines(replay: Replay, request: ReplayRequest, io: ReplayIo): Promise<void> {
  const root = request.root ?? DEFAULT_ROOT;
  let text = '';
  const emit = (event: WellEvent): void => {
    text += `${JSON.stringify(event)}\n`;
  };
  const progress = newProgress(sizeOf(request.recording), io.progress, 'replay');
  try {
    for await (const batch of fromFile(readLines(request.recording, io.stdin))) {
      for (const line of batch.lines) {
        handleLine(replay, root, line);
        settle(replay, emit);
      }
      for (let i = 0; i < batch.tooLong; i++) increment(replay.counts.ignored, 'too-long');
      progress.update(batch.readBytes);
      if (text.length < WRITE_CHARS) continue;
      await io.out(text);
      text = '';
    }
    finish(replay, emit);
    if (text.length > 0) await io.out(text);
  } finally {
    progress.stop();
  }
}

function sizeOf(path: string): number {
  if (path === '-') return 0;
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
}

/** Marks what goes wrong in reading as the file's fault. */
async function* fromFile<T>(batches: AsyncGenerator<T>): AsyncGenerator<T> {
  for (;;) {
    let next: IteratorResult<T>;
    try {
      next = await batches.next();
    } catch (error) {
      const words = error instanceof Error ? error.message : String(error);
      throw new FileError(systemReason(error) ?? words, { cause: error });
    }
    if (next.done) return;
    yield next.value;
  }
}
