/**
 * The page of all thresholds, made of their sources. After a change of one:
 * `npx vitest run … -u` writes it anew.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { reachOf } from '../../../src/lab/sensitivity/reach.ts';
import { bundleEngine } from '../../../src/lab/sensitivity/scaled-engine.ts';
import { scaledValue } from '../../../src/lab/sensitivity/scaled-value.ts';
import { isWhole, unitOf } from '../../../src/lab/sensitivity/threshold-unit.ts';
import { findThresholds, thresholdsIn } from '../../../src/lab/sensitivity/thresholds.ts';
import type { MeasuredSensitivity } from '../../../src/lab/sensitivity/summary.ts';
import type { BudgetResults } from '../../../src/lab/sensitivity/try-budgets.ts';
import { thresholdsPage } from './thresholds-page.ts';

const top = fileURLToPath(new URL('../../..', import.meta.url)).replace(/\/$/, '');
const thresholds = findThresholds(top);

describe('thresholds', () => {
  it('each stand under a comment that says where they come from', () => {
    expect(thresholds.length).toBeGreaterThan(500);
    expect(thresholds.filter(({ comment }) => comment === '').map(({ id }) => id)).toEqual([]);
  });

  it('are all on the page, with their values', async () => {
    const values = new Map<string, number>();
    (await bundleEngine(top))((id, value) => {
      values.set(id, value);
      return value;
    });
    expect(thresholds.filter(({ id }) => !values.has(id)).map(({ id }) => id)).toEqual([]);
    const measured = JSON.parse(
      readFileSync(`${top}/src/lab/sensitivity/measured.json`, 'utf8'),
    ) as MeasuredSensitivity;
    // Not for prettier, which would pad each column to its longest argument.
    const budgets = JSON.parse(
      readFileSync(`${top}/src/lab/sensitivity/measured-budgets.json`, 'utf8'),
    ) as BudgetResults;
    const page = thresholdsPage({ thresholds, values, reach: reachOf(top), measured, budgets });
    await expect(page).toMatchFileSnapshot(`${top}/src/core/alarms/THRESHOLDS.md`);
  });
});

describe('thresholdsIn', () => {
  it('reads numbers, tables of them, and whose comment they stand under', () => {
    const source = `/** Why. */
const MIN_A = 2;
export const MAX_S = 3 * HOUR_S;

const LONE = 4;
/** Per use. */
const LIMIT = { times: 2, overS: -1 } as const;
const NAMES = ['a'];
const KPA_PER_PSI = kpaFromPsi(1);
function f() { const INNER = 1; }
`;
    const found = thresholdsIn('x.ts', source).map(({ name, unit, comment, commentOf, start, end }) => [
      name,
      unit,
      comment,
      commentOf,
      source.slice(start, end),
    ]);
    expect(found).toEqual([
      ['MIN_A', 'A', 'Why.', undefined, '2'],
      ['MAX_S', 's', 'Why.', 'MIN_A', '3 * HOUR_S'],
      ['LONE', '', '', undefined, '4'],
      ['LIMIT.times', '', 'Per use.', undefined, '2'],
      ['LIMIT.overS', 's', 'Per use.', undefined, '-1'],
    ]);
  });
});

describe('unitOf', () => {
  it.each([
    ['MIN_UNDER_KPA', 'kPa'],
    ['MIN_RISE_KPA_PER_MIN', 'kPa/min'],
    ['UNDER_MINUTES', 'min'],
    ['MIN_DAYS_SHORTER', 'days'],
    ['PAST_END_SHORT_RUNS_S', 's'],
    ['PAST_END_SHORT_RUNS_RATIO', ''],
    ['MIN_RUNS', 'count'],
    ['MAX_IN_BAND_S.house', 's'],
    ['STOCK_LIMIT.overS', 's'],
    ['STOCK_LIMIT.times', ''],
    ['MAX_PERIOD_FILLS', ''],
  ])('%s: %s', (name, unit) => {
    expect(unitOf(name)).toBe(unit);
  });
});

describe('scaledValue', () => {
  it.each([
    ['x.ts MIN_RUNS', 3, 0.8, 2],
    ['x.ts MIN_RUNS', 3, 1.2, 4],
    ['x.ts RUNS', 12, 0.8, 10],
    ['x.ts MANY_RATIO', 4, 1.2, 4.8],
    ['x.ts MIN_KPA', 10, 0.8, 8],
    ['x.ts HIGHEST_RANK', 0.9, 1.2, 1],
  ])('%s %d × %d: %d', (id, value, factor, scaled) => {
    expect(scaledValue(id, value, factor)).toBeCloseTo(scaled, 9);
    expect(isWhole('count', 1.5)).toBe(false);
  });
});
