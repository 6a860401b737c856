import { describe, expect, test } from 'vitest';
import type { ProofLineAnswer } from '../../../shared/api/visits.ts';
import { MEASURES } from '../../../src/book/proof.ts';
import { MEASURE_TITLES, PROOF_CAVEAT, proofWords } from '../../../shared/words/proof.ts';

const side = (n: number, median?: number) => ({
  n,
  values: [],
  ...(median !== undefined && { median, spread: 0.05 }),
});
const line = (more: Partial<ProofLineAnswer>): ProofLineAnswer => ({
  measure: 'amps',
  of: 'runs',
  needed: 10,
  before: side(20, 6.9),
  after: side(20, 7.9),
  verdict: 'changed',
  by: 1,
  over: 0.08,
  ...more,
});
const closed = { open: false, over: false };

describe('proofWords', () => {
  test.each<[Partial<ProofLineAnswer>, typeof closed, string]>([
    [{}, closed, '6.9 A before, 7.9 A after: 1 A more. Scatter and what the sensors can tell apart: 0.08 A.'],
    [
      { by: -0.5 },
      closed,
      '6.9 A before, 7.9 A after: 0.5 A less. Scatter and what the sensors can tell apart: 0.08 A.',
    ],
    [
      { verdict: 'within-spread', after: side(20, 6.92), by: 0.02 },
      closed,
      '6.9 A before, 6.92 A after: no further apart than scatter and what the sensors can tell apart (0.08 A).',
    ],
    [
      { verdict: 'not-known-yet', after: side(3, 7.9) },
      closed,
      'Not known yet: 3 of 10 runs since the visit was closed.',
    ],
    // Of twelve runs six count: nobody is told that six were seen.
    [
      { measure: 'fill-time', verdict: 'not-known-yet', after: side(6, 90) },
      closed,
      'Not known yet: 6 of 10 quicker runs since the visit was closed.',
    ],
    [
      { verdict: 'not-known-yet', after: side(0) },
      { open: true, over: false },
      'Not known yet: the visit is still open.',
    ],
    [
      { verdict: 'not-known-yet', after: side(3, 7.9) },
      { open: false, over: true },
      'Not known: 3 of 10 runs were seen after the visit.',
    ],
    [
      { verdict: 'no-before', before: side(2, 6.9) },
      closed,
      '7.9 A after. Too little was seen before the visit to compare it with: 2 of 10 runs.',
    ],
  ])('%j', (more, stage, words) => expect(proofWords(line(more), stage, 'us')).toBe(words));

  test('a leak in the reader’s own units', () => {
    const leak = line({
      measure: 'leak',
      of: 'days',
      before: side(7, 300),
      after: side(7, 0),
      by: -300,
      over: 4,
    });
    expect(proofWords(leak, closed, 'us')).toMatch(
      /^79 gal a day before, 0 gal a day after: 79 gal a day less/,
    );
    expect(proofWords(leak, closed, 'metric')).toMatch(/^300 L a day before/);
  });
});

test('every measure has a name, and the whole promises nothing', () => {
  expect(Object.keys(MEASURE_TITLES)).toEqual([...MEASURES]);
  expect(PROOF_CAVEAT).toContain('does not say that the work caused it');
});
