/**
 * src/core/alarms/THRESHOLDS.md: every threshold of the watches and of hydraulics with its value,
 * its unit, what its comment argues, and what a fifth more or less of it costs.
 */
import { CATALOGUE, type WatchedKind } from '../../../shared/alarms/catalogue.ts';
import { HOUR_S } from '../../../shared/units/duration.ts';
import { FACTORS } from '../../../src/lab/sensitivity/scaled-value.ts';
import {
  isFragile,
  type MeasuredSensitivity,
  type Sensitivity,
} from '../../../src/lab/sensitivity/summary.ts';
import type { Threshold } from '../../../src/lab/sensitivity/thresholds.ts';
import { DEFAULT_FALSE_ALARMS_PER_YEAR } from '../../../src/core/alarms/charts/false-alarm-budget.ts';
import type { BudgetResults } from '../../../src/lab/sensitivity/try-budgets.ts';
import { budgetParts } from './false-alarm-tables.ts';

interface Page {
  thresholds: readonly Threshold[];
  values: ReadonlyMap<string, number>;
  reach: ReadonlyMap<string, readonly WatchedKind[]>;
  measured: MeasuredSensitivity;
  /** What other numbers of false alarms came to. */
  budgets: BudgetResults;
}

export function thresholdsPage({ thresholds, values, reach, measured, budgets }: Page): string {
  const files = [...new Set(thresholds.map(({ file }) => file))];
  return [
    opening(thresholds, measured),
    ...budgetParts(budgets),
    ...files.map((file) => {
      const own = thresholds.filter((one) => one.file === file);
      const rows = own.map((one) => row(one, values.get(one.id), measured.thresholds[one.id]));
      return `## ${file.replace('src/core/', '')}\n\n${reachText(reach.get(file))}\n\n${HEAD}\n${rows.join('\n')}\n`;
    }),
  ].join('\n');
}

const HEAD = `| threshold | value | unit | argument or source | as it is | × 0.8 | × 1.2 |
| --- | --- | --- | --- | --- | --- | --- |`;

const BUDGETED = Object.entries(CATALOGUE).flatMap(([kind, row]) => ('chance' in row ? [kind] : []));

function opening(
  thresholds: readonly Threshold[],
  { remark, cases, ofCases, thresholds: tried }: MeasuredSensitivity,
): string {
  const shared = thresholds.filter(({ commentOf }) => commentOf !== undefined).length;
  const fragile = thresholds.filter(({ id }) => tried[id] && isFragile(tried[id])).map(nameInText);
  return `# Thresholds

Every named number of the watches and of hydraulics: ${thresholds.length}, of which ${shared} stand under the comment of the one before them.
The argument is the comment in the source, word for word. A test writes this page and fails where a threshold has no comment
(\`tests/lab/sensitivity/thresholds-page.test.ts\`).

The last columns say what a fifth less or more of a threshold costs. \`npm run long\` plays a fixed set of wells of both plants once and
asks the watches again over what they saw (\`src/lab/sensitivity/\`). **Found** counts faults of the kinds that the threshold decides for,
each in its lightest size; **false** counts alarms in the years in which the same wells were sound. What the wells had learnt is held as
it was. Whole numbers (runs, days, minutes) move by one at least. So far ${cases} of ${ofCases} wells were tried.${remark === undefined ? '' : ` ${remark}`} A dash: not tried;
**not used**: no well of the set came to the line that asks it. Thresholds of
hydraulics decide from readings and not from what the watches see: they are listed and not tried.

The budget of false alarms moves the limits of ${namesOf(BUDGETED)} alone: \`falseAlarmsPerYear\` on the card says how many
alarms a year may come by chance (as delivered ${DEFAULT_FALSE_ALARMS_PER_YEAR}, one in ${1 / DEFAULT_FALSE_ALARMS_PER_YEAR} years). The limits of all other kinds come from the card,
from standards and from the arguments below; the budget does not move them. What it costs in delay comes first.

A threshold is **fragile** if it loses more than 5 points of recall, or adds more than 0.1 false alarms a sound
well-year, at either step. ${fragile.length === 0 ? 'None of those tried is.' : `These are: ${fragile.join(', ')}.`}
`;
}

function nameInText({ file, name }: Threshold): string {
  return `\`${file.split('/').at(-1)!.replace('.ts', '')} ${name}\``;
}

function reachText(kinds: readonly WatchedKind[] | undefined): string {
  if (!kinds) return 'Decides for no single kind.';
  if (kinds.length > 10) return `Decides for ${kinds.length} kinds.`;
  const budgeted = kinds.some((kind) => 'chance' in CATALOGUE[kind]);
  return `Decides for ${namesOf(kinds)}.${budgeted ? ' Its limits follow the budget of false alarms.' : ''}`;
}

function namesOf(kinds: readonly string[]): string {
  return kinds.map((kind) => `\`${kind}\``).join(', ');
}

function row(
  { name, unit, comment, commentOf }: Threshold,
  value: number | undefined,
  tried?: Sensitivity,
): string {
  const argument = commentOf === undefined ? comment.replaceAll('|', '\\|') : `with \`${commentOf}\``;
  const cells = [
    `\`${name}\``,
    value === undefined ? '' : numberText(value),
    unitText(unit, value),
    argument,
    ...triedCells(value, tried),
  ];
  return `| ${cells.join(' | ')} |`;
}

function triedCells(value: number | undefined, tried: Sensitivity | undefined): string[] {
  if (!tried) return ['–', '–', '–'];
  const { faults, found, falseAlarms, soundYears, usedIn } = tried;
  const since = tried.value === value ? '' : ` (tried at ${numberText(tried.value)})`;
  const asItIs = `found ${found} of ${faults}, false ${falseAlarms} in ${soundYears.toFixed(1)} years${since}`;
  if (usedIn === 0) return [asItIs, 'not used', 'not used'];
  const steps = FACTORS.map((factor) => {
    const step = tried.tried[factor];
    if (!step) return '–';
    if (step.found === found && step.falseAlarms === falseAlarms) return 'same';
    const text = `found ${step.found}, false ${step.falseAlarms}`;
    return isFragile({ ...tried, tried: { [factor]: step } }) ? `**${text}**` : text;
  });
  return [asItIs, ...steps];
}

/** Long times also in hours. */
function unitText(unit: string, value = 0): string {
  const seconds = unit === 'ms' ? value / 1000 : unit === 's' ? value : 0;
  return seconds < 2 * HOUR_S ? unit : `${unit} (${numberText(seconds / HOUR_S)} h)`;
}

function numberText(value: number): string {
  return String(Number(value.toPrecision(4)));
}
