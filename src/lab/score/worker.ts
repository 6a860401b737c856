/**
 * Scores cases on a thread of its own, one after the other, as they are asked for by their place in
 * the corpus.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { corpus } from './corpus/all.ts';
import { shortenCases } from './shorten.ts';
import { scoreCase, type CaseScore } from './score-case.ts';

export interface WorkerTask {
  full: boolean;
  /** Healthy wells are played for so many days at most. */
  maxDays?: number;
}

export type WorkerMessage = { at: number; score: CaseScore } | { at: number; failed: string };

const order = workerData as WorkerTask;
const cases = shortenCases(corpus(order.full), order.maxDays);

parentPort?.on('message', (at: number) => {
  const message = scoreAt(at);
  parentPort?.postMessage(message);
});

function scoreAt(at: number): WorkerMessage {
  try {
    return { at, score: scoreCase(cases[at]!) };
  } catch (error) {
    return { at, failed: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
