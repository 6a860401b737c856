/** Results of one analyte over the years, drawn with their limit; only those that were measured twice or more. */
import type { WaterAnswer, WaterResultAnswer } from '../../shared/api/due.ts';
import { amountWords } from '../../shared/words/water-amounts.ts';
import { YearsLine } from './years-line.tsx';
import type { YearLine, YearPoint } from './years-shape.ts';

interface Trend {
  name: string;
  unit: string;
  points: YearPoint[];
  lines: YearLine[];
}

export function WaterTrends({ value }: { value: WaterAnswer }) {
  const trends = trendsOf(value);
  if (trends.length === 0) return null;
  return (
    <section aria-labelledby="trends">
      <h2 id="trends">Over the years</h2>
      <p class="doing">A hollow dot: not more than this, for the laboratory could not see less.</p>
      <div class="charts">
        {trends.map((trend) => (
          <YearsLine
            key={trend.name}
            title={trend.name}
            said={saidOf(trend)}
            points={trend.points}
            lines={trend.lines}
            fromZero={trend.name !== 'pH'}
          />
        ))}
      </div>
    </section>
  );
}

/** By the table's own order of the newest test. */
function trendsOf({ tests }: WaterAnswer): Trend[] {
  const by = new Map<string, { result: WaterResultAnswer; atMs: number }[]>();
  for (const { results, atMs } of tests.toReversed())
    for (const result of results)
      if (result.key !== undefined && result.value !== undefined)
        by.set(result.name, [...(by.get(result.name) ?? []), { result, atMs }]);
  return [...by].flatMap(([name, found]) => {
    const newest = found.at(-1)?.result;
    if (found.length < 2 || !newest) return [];
    const points = found.map(({ result, atMs }) => ({
      atMs,
      value: result.value ?? 0,
      ...(result.is === 'below' && { open: true }),
    }));
    return [{ name, unit: newest.unit, points, lines: linesOf(newest) }];
  });
}

function linesOf({ compared, unit }: WaterResultAnswer): YearLine[] {
  return compared.flatMap(({ limit: { most, least } }) => [
    ...(most === undefined ? [] : [{ value: most, words: `limit ${amountWords(most, unit)}` }]),
    ...(least === undefined ? [] : [{ value: least, words: `lower limit ${amountWords(least, unit)}` }]),
  ]);
}

function saidOf({ points, unit }: Trend): string {
  const first = points[0];
  const last = points.at(-1);
  if (!first || !last) return '';
  const words = ({ value, open }: YearPoint): string => `${open ? 'under ' : ''}${amountWords(value, unit)}`;
  const rising =
    points.length > 2 && points.every(({ value }, at) => at === 0 || value > (points[at - 1]?.value ?? 0));
  return `${words(first)} at first, ${words(last)} last${rising ? '; higher each time' : ''}`;
}
