/**
 * Results of one analyte over the years, drawn with their limit; only those that were measured
 * twice or more.
 */
import type { WaterAnswer } from '../../../shared/api/due.ts';
import { trendsOf, trendWords } from '../../words/water-trend.ts';
import { TrendChart } from '../../charts/trend-chart.tsx';
import { texts } from './texts.ts';

export function WaterTrends({ value }: { value: WaterAnswer }) {
  const trends = trendsOf(value);
  if (trends.length === 0) return null;
  return (
    <section aria-labelledby="trends">
      <h2 id="trends">{texts().trends}</h2>
      <p class="secondary">{texts().trendsHelp}</p>
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
