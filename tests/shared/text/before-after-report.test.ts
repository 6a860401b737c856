import { describe, expect, test } from 'vitest';
import type { ReportLineAnswer } from '../../../shared/api/visits.ts';
import { REPORT_MEASURES } from '../../../shared/api/visits.ts';
import {
  MEASURE_TITLES,
  REPORT_CAVEAT,
  reportLineText,
} from '../../../shared/text/en/checks/before-after-report.ts';

const side = (count: number, median?: number) => ({
  count,
  values: [],
  ...(median !== undefined && { median, spread: 0.05 }),
});
const line = (more: Partial<ReportLineAnswer>): ReportLineAnswer => ({
  measure: 'amps',
  sampleKind: 'runs',
  minCount: 10,
  before: side(20, 6.9),
  after: side(20, 7.9),
  verdict: 'changed',
  difference: 1,
  threshold: 0.08,
  ...more,
});
const closed = { isOpen: false, isOver: false };

describe('proofWords', () => {
  test.each<[Partial<ReportLineAnswer>, typeof closed, string]>([
    [{}, closed, '6.9 A before, 7.9 A after: 1 A more. Scatter and sensor resolution: 0.08 A.'],
    [
      { difference: -0.5 },
      closed,
      '6.9 A before, 7.9 A after: 0.5 A less. Scatter and sensor resolution: 0.08 A.',
    ],
    [
      { verdict: 'within-spread', after: side(20, 6.92), difference: 0.02 },
      closed,
      '6.9 A before, 6.92 A after: the difference is within scatter and sensor resolution (0.08 A).',
    ],
    [
      { verdict: 'pending', after: side(3, 7.9) },
      closed,
      'Not known yet: 3 of 10 runs since the visit was closed.',
    ],
    // Of twelve runs six count: nobody is told that six were seen.
    [
      { measure: 'fill-time', verdict: 'pending', after: side(6, 90) },
      closed,
      'Not known yet: 6 of 10 faster runs since the visit was closed.',
    ],
    [
      { verdict: 'pending', after: side(0) },
      { isOpen: true, isOver: false },
      'Not known yet: the visit is still open.',
    ],
    [
      { verdict: 'pending', after: side(3, 7.9) },
      { isOpen: false, isOver: true },
      'Not known: only 3 of 10 runs after the visit.',
    ],
    [
      { verdict: 'no-baseline', before: side(2, 6.9) },
      closed,
      '7.9 A after. Too little data before the visit to compare: 2 of 10 runs.',
    ],
  ])('%j', (more, stage, words) => expect(reportLineText(line(more), stage, 'us')).toBe(words));

  test('a leak in the reader’s own units', () => {
    const leak = line({
      measure: 'leak',
      sampleKind: 'days',
      before: side(7, 300),
      after: side(7, 0),
      difference: -300,
      threshold: 4,
    });
    expect(reportLineText(leak, closed, 'us')).toMatch(
      /^79 gal a day before, 0 gal a day after: 79 gal a day less/,
    );
    expect(reportLineText(leak, closed, 'metric')).toMatch(/^300 L a day before/);
  });
});

test('every measure has a name, and the whole promises nothing', () => {
  expect(Object.keys(MEASURE_TITLES)).toEqual([...REPORT_MEASURES]);
  expect(REPORT_CAVEAT).toContain('does not show that the work caused the change');
});
