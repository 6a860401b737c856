/** Water by calendar year and month, with the days that have no total. */
import type { FiguresAnswer, WaterPeriod } from '../../../shared/api/figures/figures.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { formatPercent, formatWaterTotal } from '../../../shared/text/en/pages/figures.ts';
import { Table, type TableRow } from '../../../shared/view/table.tsx';
import { useAppContext } from '../../data/settings.ts';
import { texts } from './texts.ts';

export function WaterSection({ value: { years, allowedL } }: { value: FiguresAnswer }) {
  const { units } = useAppContext();
  if (years.length === 0)
    return (
      <section aria-labelledby="water-totals">
        <h2 id="water-totals">{texts().water}</h2>
        <p class="status">{texts().noWater}</p>
      </section>
    );
  const head = [texts().period, texts().used, texts().measured];
  return (
    <section aria-labelledby="water-totals">
      <h2 id="water-totals">{texts().water}</h2>
      {allowedL !== undefined && <p>{texts().allowed(formatWaterTotal(allowedL, units))}</p>}
      <Table
        head={allowedL === undefined ? head : [...head, texts().ofAllowed]}
        rows={years.map((year) => periodRow(year, units, year.allowedRatio))}
      />
      {years.map(({ period, months }) => (
        <details key={period} class="more">
          <summary>{texts().months(period)}</summary>
          <Table head={head} rows={months.map((month) => periodRow(month, units))} />
        </details>
      ))}
      <p class="secondary">{texts().leastNote}</p>
    </section>
  );
}

function periodRow(
  { period, usedL, days, missingDays }: WaterPeriod,
  units: UnitSystem,
  allowedRatio?: number,
): TableRow {
  const isKnown = days > missingDays;
  return {
    key: period,
    class: allowedRatio !== undefined && allowedRatio > 1 ? 'stands-out' : undefined,
    cells: [
      period,
      isKnown ? formatWaterTotal(usedL, units) : '',
      texts().daysOf(days - missingDays, days),
      ...(allowedRatio === undefined ? [] : [formatPercent(allowedRatio)]),
    ],
  };
}
