/**
 * What the number of false alarms on the card costs, for the page of all thresholds: how long the
 * charts need at each number by their run lengths, and how long the alarms took in wells of both
 * plants (src/lab/sensitivity/measured-budgets.json).
 */
import { type StatisticalKind } from '../../../shared/alarms/catalogue.ts';
import { DAY_MS, HOUR_MS } from '../../../shared/units/duration.ts';
import { runLengthFor } from '../../../src/core/alarms/charts/false-alarm-budget.ts';
import { cusumArl, cusumLimit } from '../../../src/core/alarms/charts/run-length.ts';
import { BUDGETS, CHARTED, type BudgetResults } from '../../../src/lab/sensitivity/try-budgets.ts';
import { houseCard } from '../../core/alarms/scene-kit.ts';

const NOT_MEASURED = 'not measured';

interface Chart {
  /** The change that the table is about, in an owner's words. */
  change: string;
  unit: string;
  k: number;
  /** That change in sigma of the chart. */
  shift: number;
  valuesPerYear: number;
  remark: string;
}

const RUNS_A_DAY = 12;
/**
 * The least that counts is three spreads of the runs, which the chart sees as 3 / 1.53: it allows
 * for currents that hang together (src/core/alarms/electric/amps-shift.ts).
 */
const AMPS: Chart = {
  change: 'A change of the current by three times what it scatters by, in a house of twelve runs a day',
  unit: 'runs',
  k: 3 / 1.53 / 2,
  shift: 3 / 1.53,
  valuesPerYear: RUNS_A_DAY * 365,
  remark:
    'The median of the last runs must show the change too, and of how many runs follows from the number as well.',
};
/** Twice the usual starts are log 2 over a spread of 0.4 (src/core/alarms/water/cycle-count.ts). */
const COUNT: Chart = {
  change: 'Starts that have doubled, in shorter runs',
  unit: 'days',
  k: 0.75,
  shift: Math.log(2) / 0.4,
  valuesPerYear: 365,
  remark:
    'Other forms of this alarm (busy weeks, days that nearly stay empty) wait for a number of days of their own, whatever the number.',
};
const CHART_OF: Record<StatisticalKind, Chart> = {
  'amps-high': AMPS,
  'amps-low': AMPS,
  'cycle-count': COUNT,
};

/** A part for each kind that the number moves, with its table. */
export function budgetParts(measured: BudgetResults): string[] {
  return CHARTED.map((kind) => budgetPart(kind, measured));
}

function budgetPart(kind: StatisticalKind, measured: BudgetResults): string {
  const { change, unit, k, shift, valuesPerYear, remark } = CHART_OF[kind];
  const texts = new Set(BUDGETS.map((budget) => measuredText(measured[kind][budget])));
  const isSame = texts.size === 1 && !texts.has(NOT_MEASURED);
  const same = isSame ? ' In the wells of both plants the number changes nothing.' : '';
  const rows = BUDGETS.map((falseAlarmsPerYear) => {
    const card = { ...houseCard(), falseAlarmsPerYear };
    const h = cusumLimit(k, runLengthFor(kind, valuesPerYear, card));
    const alone = cusumArl({ k, h, shift }).toFixed(1);
    return `| ${falseAlarmsPerYear} | ${alone} ${unit} | ${measuredText(measured[kind][falseAlarmsPerYear])} |`;
  });
  return `## False alarms by chance: ${kind}

\`falseAlarmsPerYear\` moves its limit. ${change}: the chart needs so long on average. ${remark}${same}

| false alarms a year | the chart alone | the alarm, in wells of both plants |
| --- | --- | --- |
${rows.join('\n')}
`;
}

function measuredText(result: BudgetResults[StatisticalKind][string] | undefined): string {
  if (!result || result.faults === 0) return NOT_MEASURED;
  const { faults, found, medianAfterMs } = result;
  const first = found === 1 ? '' : 'half of them ';
  const after = medianAfterMs === undefined ? '' : `, ${first}within ${timeText(medianAfterMs)} of the start`;
  return `found ${found} of ${faults}${after}`;
}

function timeText(ms: number): string {
  return ms < 2 * DAY_MS ? `${(ms / HOUR_MS).toFixed(0)} h` : `${(ms / DAY_MS).toFixed(1)} days`;
}
