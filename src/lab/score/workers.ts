/**
 * Shares the cases out among threads, the longest first so that none is left alone with a long one
 * at the end. Scores stand in the corpus's order whoever was quicker.
 */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { CaseScore } from './score-case.ts';
import type { WorkerTask, WorkerMessage } from './worker.ts';

/** Each thread holds a week of readings and the code: more of them than this help no machine. */
const MAX_THREADS = 8;

export interface ScoreRequest {
  /** The place in the corpus and how long it is. */
  cases: readonly { at: number; days: number }[];
  full: boolean;
  /** Healthy wells are played for so many days at most. */
  maxDays?: number;
  /** One more is done. */
  onScore: (score: CaseScore) => void;
}

/** Throws an Error with the case's own words where one can't be played. */
export async function scoreAll({ cases, full, maxDays, onScore }: ScoreRequest): Promise<CaseScore[]> {
  const queue = [...cases].sort((a, b) => b.days - a.days || a.at - b.at);
  const scores = new Map<number, CaseScore>();
  const threads = Math.min(availableParallelism(), MAX_THREADS, queue.length);
  const workers = Array.from({ length: threads }, () => {
    const workerData: WorkerTask = { full, ...(maxDays !== undefined && { maxDays }) };
    return new Worker(new URL(workerFile()), { workerData });
  });
  try {
    await Promise.all(
      workers.map((worker) =>
        runWorker(worker, queue, (at, score) => {
          scores.set(at, score);
          onScore(score);
        }),
      ),
    );
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
  return cases.map(({ at }) => scores.get(at)!);
}

/** Hands one case after the other to a worker until none is left. */
function runWorker(
  worker: Worker,
  queue: { at: number }[],
  onScore: (at: number, score: CaseScore) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const next = (): void => {
      const one = queue.shift();
      if (one === undefined) resolve();
      else worker.postMessage(one.at);
    };
    worker.on('error', reject);
    worker.on('message', (message: WorkerMessage) => {
      if ('failed' in message) {
        reject(new Error(message.failed));
        return;
      }
      onScore(message.at, message.score);
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
