/**
 * The sets of cases that the scoreboard shows beside each other. A set of another plant says
 * whether what holds for the first plant holds for wells; one that is held out, whether it holds
 * for wells that nobody has tuned for. So of a held-out set nobody is shown single cases unless
 * they ask.
 */
import { halfOf } from '../second-plant/corpus/halves.ts';
import type { CorpusCase } from './case.ts';
import { corpus } from './corpus/all.ts';

export const SETS = ['first', 'tuned', 'held-out'] as const;
export type SetName = (typeof SETS)[number];

export const SET_LABELS: Record<SetName, string> = {
  first: 'plant one',
  tuned: 'plant two, tuned',
  'held-out': 'plant two, held out',
};

export function casesOf(set: SetName, full: boolean): CorpusCase[] {
  switch (set) {
    case 'first':
      return corpus(full);
    case 'tuned':
    case 'held-out':
      return halfOf(set, full);
    default:
      return set satisfies never;
  }
}
