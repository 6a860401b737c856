/**
 * Results of one analyte over the years: the points, the limits to hold them against, and one
 * sentence that says no more than was measured.
 */
import type { WaterAnswer, WaterResultAnswer } from '../../shared/api/due.ts';
import { amountText } from '../../shared/text/en/water-text.ts';
import { texts } from '../texts.ts';

export interface WaterPoint {
  atMs: number;
  value: number;
  /**
   * Under what the laboratory could see, or over what it could count: the value is that end and no
   * measure.
   */
  open?: 'under' | 'over';
}

export interface WaterTrend {
  name: string;
  unit: string;
  points: WaterPoint[];
  lines: { value: number; words: string }[];
}

/** Only of what has a figure twice or more; in the order of the newest test. */
export function trendsOf({ tests }: Pick<WaterAnswer, 'tests'>): WaterTrend[] {
  const byName = new Map<string, { result: WaterResultAnswer; atMs: number }[]>();
  for (const { results, atMs } of tests.toReversed())
    for (const result of results)
      if (result.key !== undefined && result.value !== undefined)
        byName.set(result.name, [...(byName.get(result.name) ?? []), { result, atMs }]);
  return [...byName].flatMap(([name, results]) => {
    const newest = results.at(-1)?.result;
    if (results.length < 2 || !newest) return [];
    const points = results.map(({ result, atMs }) => pointOf(result, atMs));
    return [{ name, unit: newest.unit, points, lines: limitLines(newest) }];
  });
}

function pointOf({ is, value = 0 }: WaterResultAnswer, atMs: number): WaterPoint {
  if (is === 'below') return { atMs, value, open: 'under' };
  return is === 'above' ? { atMs, value, open: 'over' } : { atMs, value };
}

function limitLines({ comparisons, unit }: WaterResultAnswer): WaterTrend['lines'] {
  return comparisons.flatMap(({ limit: { max, min } }) => [
    ...(max === undefined ? [] : [{ value: max, words: texts().limit(amountText(max, unit)) }]),
    ...(min === undefined ? [] : [{ value: min, words: texts().lowerLimit(amountText(min, unit)) }]),
  ]);
}

/**
 * "2.1 mg/L as N at first, 4.8 mg/L as N last; higher each time": that last only of figures that
 * were all measured.
 */
export function trendWords({ points, unit }: Pick<WaterTrend, 'points' | 'unit'>): string {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return '';
  const words = ({ value, open }: WaterPoint): string => texts().amountOf(amountText(value, unit), open);
  const rising =
    points.length > 2 &&
    points.every(
      ({ value, open }, at) =>
        open === undefined && (at === 0 || value > (points[at - 1]?.value ?? Number.POSITIVE_INFINITY)),
    );
  return texts().trend(words(first), words(last), rising);
}
