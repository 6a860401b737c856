/** Scores cases on a thread of its own, one after the other, as they are asked for by their place in the corpus. */
import { parentPort, workerData } from 'node:worker_threads';
import { corpus } from './corpus/all.ts';
import { shortened } from './shorten.ts';
import { scoreCase, type CaseScore } from './score-case.ts';

export interface WorkerOrder {
  full: boolean;
  /** Healthy wells are played for so many days at most. */
  mostDays?: number;
}

export type WorkerWord = { at: number; score: CaseScore } | { at: number; failed: string };

const order = workerData as WorkerOrder;
const cases = shortened(corpus(order.full), order.mostDays);

parentPort?.on('message', (at: number) => {
  const word = scored(at);
  parentPort?.postMessage(word);
});

function scored(at: number): WorkerWord {
  try {
    return { at, score: scoreCase(cases[at]!, () => performance.now()) };
  } catch (error) {
    return { at, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
