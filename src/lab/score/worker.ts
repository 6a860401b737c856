/**
 * Scores cases on a thread of its own, one after the other, as they are asked for by their place in
 * their set.
 */
import { parentPort, workerData } from 'node:worker_threads';
import type { CorpusCase } from './case.ts';
import { casesOf, type SetName } from './sets.ts';
import { shortenCases } from './shorten.ts';
import { scoreCase, type CaseScore } from './score-case.ts';

export interface WorkerOptions {
  full: boolean;
  /** Healthy wells are played for so many days at most. */
  maxDays?: number;
}

export interface WorkerTask {
  set: SetName;
  at: number;
}

export type WorkerMessage = { score: CaseScore } | { failed: string };

const { full, maxDays } = workerData as WorkerOptions;
const sets = new Map<SetName, CorpusCase[]>();

parentPort?.on('message', (task: WorkerTask) => {
  const message = scoreTask(task);
  parentPort?.postMessage(message);
});

function casesIn(set: SetName): CorpusCase[] {
  const cases = sets.get(set) ?? shortenCases(casesOf(set, full), maxDays);
  sets.set(set, cases);
  return cases;
}

function scoreTask({ set, at }: WorkerTask): WorkerMessage {
  try {
    return { score: scoreCase(casesIn(set)[at]!) };
  } catch (error) {
    return { failed: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
