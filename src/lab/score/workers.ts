/**
 * Shares the cases out among threads, the longest first so that none is left alone with a long one
 * at the end. Scores stand in the order of the cases whoever was quicker.
 */
import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { CaseScore } from './score-case.ts';
import type { WorkerMessage, WorkerOptions, WorkerTask } from './worker.ts';

/** Each thread holds a week of readings and the code: more of them than this help no machine. */
const MAX_THREADS = 8;

export interface ScoreRequest {
  /** The place in its set and how long it is. */
  cases: readonly (WorkerTask & { days: number })[];
  full: boolean;
  /** Healthy wells are played for so many days at most. */
  maxDays?: number;
  /** One more is done. */
  onScore: (score: CaseScore, task: WorkerTask) => void;
}

/** Throws an Error with the case's own words where one can't be played. */
export async function scoreAll({ cases, full, maxDays, onScore }: ScoreRequest): Promise<CaseScore[]> {
  const queue = [...cases].sort((a, b) => b.days - a.days || a.at - b.at);
  const scores = new Map<WorkerTask, CaseScore>();
  const threads = Math.min(availableParallelism(), MAX_THREADS, queue.length);
  const workers = Array.from({ length: threads }, () => {
    const workerData: WorkerOptions = { full, ...(maxDays !== undefined && { maxDays }) };
    return new Worker(new URL(workerFile()), { workerData });
  });
  try {
    await Promise.all(
      workers.map((worker) =>
        runWorker(worker, queue, (task, score) => {
          scores.set(task, score);
          onScore(score, task);
        }),
      ),
    );
  } finally {
    await Promise.all(workers.map((worker) => worker.terminate()));
  }
  return cases.map((task) => scores.get(task)!);
}

/** Hands one case after the other to a worker until none is left. */
function runWorker(
  worker: Worker,
  queue: WorkerTask[],
  onScore: (task: WorkerTask, score: CaseScore) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    let task: WorkerTask | undefined;
    const next = (): void => {
      task = queue.shift();
      if (task === undefined) resolve();
      else worker.postMessage({ set: task.set, at: task.at } satisfies WorkerTask);
    };
    worker.on('error', reject);
    worker.on('message', (message: WorkerMessage) => {
      if ('failed' in message) {
        reject(new Error(message.failed));
        return;
      }
      onScore(task!, message.score);
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
