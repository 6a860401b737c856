import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addSeqs,
  removeSeqs,
  hasSeq,
  lastMsBelow,
  limitRanges,
  missingIn,
  type SeqRange,
} from '../../../src/core/readings/seq-ranges.ts';

/** '1-3 7' as ranges. */
function ranges(text: string): SeqRange[] {
  return text
    .split(' ')
    .filter(Boolean)
    .map((part) => {
      const [from, to = from] = part.split('-').map(Number);
      return { from: from!, to: to!, lastMs: 0 };
    });
}
const shown = (list: readonly SeqRange[]): string =>
  list.map(({ from, to }) => (from === to ? `${from}` : `${from}-${to}`)).join(' ');

describe('addSeqs: what touches becomes one', () => {
  test.each([
    ['', '5', '5'],
    ['1-4', '5', '1-5'],
    ['1-4', '6', '1-4 6'],
    ['1-4 6', '5', '1-6'],
    ['3-4', '1', '1 3-4'],
    ['3-4', '2', '2-4'],
    ['1-2 5-6 9', '2-8', '1-9'],
    ['5-6', '1-9', '1-9'],
    ['1-9', '3-4', '1-9'],
  ])('%s and %s make %s', (before, added, after) => {
    const list = ranges(before);
    const [more] = ranges(added);
    addSeqs(list, more!.from, more!.to, 0);
    expect(shown(list)).toBe(after);
  });
});

const step = fc.record({
  drop: fc.boolean(),
  from: fc.integer({ min: 1, max: 40 }),
  n: fc.integer({ min: 0, max: 6 }),
});

test('addSeqs, dropSeqs, hasSeq and missingIn are a set of numbers', () => {
  fc.assert(
    fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
      const list: SeqRange[] = [];
      const model = new Set<number>();
      for (const { drop, from, n } of steps) {
        for (let seq = from; seq <= from + n; seq++) {
          if (drop) model.delete(seq);
          else model.add(seq);
        }
        if (drop) removeSeqs(list, from, from + n);
        else addSeqs(list, from, from + n, 0);
        for (let i = 1; i < list.length; i++) expect(list[i]!.from).toBeGreaterThan(list[i - 1]!.to + 1);
      }
      const all = Array.from({ length: 50 }, (_, i) => i + 1);
      expect(all.filter((seq) => hasSeq(list, seq))).toEqual(all.filter((seq) => model.has(seq)));
      expect(missingIn(list, 5, 45)).toBe(all.filter((s) => s >= 5 && s <= 45 && !model.has(s)).length);
    }),
    { seed: 11, numRuns: 400 },
  );
});

test('lastMsBelow takes the latest trusted time of lower seqs only', () => {
  const list: SeqRange[] = [];
  addSeqs(list, 1, 3, 1000);
  addSeqs(list, 7, 7, 5000);
  expect([lastMsBelow(list, 1), lastMsBelow(list, 5), lastMsBelow(list, 8)]).toEqual([0, 1000, 5000]);
});

test('limitRanges forgets the shortest between the first and the last', () => {
  const list = ranges('1-3 5 7-9 11-12 20');
  limitRanges(list, 3);
  expect(shown(list)).toBe('1-3 7-9 20');
});
