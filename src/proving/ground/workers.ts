/**
 * Shares the cases out among threads, the longest first so that none is left alone with a long one at the end. Scores stand in the
 * corpus's order whoever was quicker.
 */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { CaseScore } from './score-case.ts';
import type { WorkerOrder, WorkerWord } from './worker.ts';

/** Each thread holds a week of readings and the code: more of them than this help no machine. */
const MOST_THREADS = 8;

export interface Share {
  /** The place in the corpus and how long it is. */
  cases: readonly { at: number; days: number }[];
  full: boolean;
  /** Healthy wells are played for so many days at most. */
  mostDays?: number;
  /** One more is done. */
  done: (score: CaseScore) => void;
}

/** Throws an Error with the case's own words where one can't be played. */
export async function scoreAll({ cases, full, mostDays, done }: Share): Promise<CaseScore[]> {
  const waiting = [...cases].sort((a, b) => b.days - a.days || a.at - b.at);
  const scores = new Map<number, CaseScore>();
  const threads = Math.min(availableParallelism(), MOST_THREADS, waiting.length);
  const workers = Array.from({ length: threads }, () => {
    const workerData: WorkerOrder = { full, ...(mostDays !== undefined && { mostDays }) };
    return new Worker(new URL(workerFile()), { workerData });
  });
  try {
    await Promise.all(
      workers.map((worker) =>
        follow(worker, waiting, (at, score) => {
          scores.set(at, score);
          done(score);
        }),
      ),
    );
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
  return cases.map(({ at }) => scores.get(at)!);
}

/** Hands one case after the other to a worker until none is left. */
function follow(
  worker: Worker,
  waiting: { at: number }[],
  take: (at: number, score: CaseScore) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const next = (): void => {
      const one = waiting.shift();
      if (one === undefined) resolve();
      else worker.postMessage(one.at);
    };
    worker.on('error', reject);
    worker.on('message', (word: WorkerWord) => {
      if ('failed' in word) {
        reject(new Error(word.failed));
        return;
      }
      take(word.at, word.score);
      next();
    });
    next();
  });
}

/** From sources or built, the worker lies beside this under the same ending. */
function workerFile(): string {
  const ending = import.meta.url.endsWith('.ts') ? '.ts' : '.js';
  return new URL(`worker${ending}`, import.meta.url).href;
}
