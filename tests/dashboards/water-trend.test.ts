import { expect, test } from 'vitest';
import type { WaterAnswer, WaterResultAnswer } from '../../shared/api/due.ts';
import { trendsOf, trendWords, type WaterPoint } from '../../dashboards/words/water-trend.ts';

const result = (is: WaterResultAnswer['is'], value?: number): WaterResultAnswer => ({
  analyte: 'Nitrate',
  written: '',
  key: 'nitrate',
  name: 'Nitrate',
  is,
  ...(value !== undefined && { value }),
  unit: 'mg/L as N',
  comparisons: [],
  elsewhere: [],
});
const tests = (...results: WaterResultAnswer[]): Pick<WaterAnswer, 'tests'> => ({
  tests: results
    .map((one, at) => ({ id: String(at), sampleDate: '', atMs: at, documents: [], results: [one] }))
    .toReversed(),
});

test('what the laboratory could not see or not count is a point that is open, and what has no figure is none', () => {
  const [trend] = trendsOf(
    tests(result('below', 0.5), result('value', 2), result('above', 20), result('absent')),
  );
  expect(trend?.points).toEqual([
    { atMs: 0, value: 0.5, open: 'under' },
    { atMs: 1, value: 2 },
    { atMs: 2, value: 20, open: 'over' },
  ]);
  expect(trendsOf(tests(result('value', 2)))).toEqual([]);
});

const at = (value: number, open?: 'under' | 'over'): WaterPoint => ({
  atMs: 0,
  value,
  ...(open !== undefined && { open }),
});

test.each<[string, WaterPoint[], string]>([
  ['rises', [at(1), at(2), at(3)], 'first 1 mg/L, last 3 mg/L; higher each time'],
  ['falls once', [at(1), at(3), at(2)], 'first 1 mg/L, last 2 mg/L'],
  ['nobody knows whether it rose', [at(1, 'under'), at(2), at(3)], 'first under 1 mg/L, last 3 mg/L'],
  ['more than could be counted', [at(1), at(2), at(20, 'over')], 'first 1 mg/L, last over 20 mg/L'],
])('in words: %s', (_, points, words) => expect(trendWords({ points, unit: 'mg/L' })).toBe(words));
