/**
 * Results of one analyte over the years, drawn with their limit; only those that were measured
 * twice or more.
 */
import type { WaterAnswer } from '../../../shared/api/due.ts';
import { trendsOf, trendWords } from '../../words/water-trend.ts';
import { TrendChart } from '../../charts/trend-chart.tsx';

export function WaterTrends({ value }: { value: WaterAnswer }) {
  const trends = trendsOf(value);
  if (trends.length === 0) return null;
  return (
    <section aria-labelledby="trends">
      <h2 id="trends">Over the years</h2>
      <p class="secondary">
        A hollow dot is no measure: the laboratory could not see less than this, or could not count more.
      </p>
      <div class="charts">
        {trends.map((trend) => (
          <TrendChart
            key={trend.name}
            title={trend.name}
            description={trendWords(trend)}
            points={trend.points.map(({ open, ...point }) => ({
              ...point,
              ...(open !== undefined && { open: true }),
            }))}
            lines={trend.lines}
            fromZero={trend.name !== 'pH'}
          />
        ))}
      </div>
    </section>
  );
}
