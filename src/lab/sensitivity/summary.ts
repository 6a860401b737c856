/**
 * What the outcomes say of each threshold: how many faults of its own kinds are found at 0.8 and
 * 1.2 of its value, and how many alarms sound wells raise, beside the engine as it is.
 */
import type { CorpusCase } from '../score/case.ts';
import { healthyYears } from '../score/judge.ts';
import type { Outcome } from './run-sensitivity.ts';
import { FACTORS, scaledValue, type Factor } from './scaled-value.ts';

export interface Tried {
  value: number;
  found: number;
  falseAlarms: number;
}

export interface Sensitivity {
  /** Its value when it was tried. */
  value: number;
  /** Wells in which it was tried, and those of them in which it was used at all. */
  wells: number;
  usedIn: number;
  /** Faults of its kinds in the set, and those found; years in which wells were sound. */
  faults: number;
  found: number;
  falseAlarms: number;
  soundYears: number;
  tried: Partial<Record<Factor, Tried>>;
}

/** What src/lab/sensitivity/measured.json holds. */
export interface MeasuredSensitivity {
  /** What else must be known of it. */
  remark?: string;
  /** Cases that were tried, of so many of the fixed set. */
  cases: number;
  ofCases: number;
  thresholds: Record<string, Sensitivity>;
}

const NOTHING_TRIED = { wells: 0, usedIn: 0, faults: 0, found: 0, falseAlarms: 0, soundYears: 0 };

/** By the threshold's id. A case counts where the threshold was tried in it. */
export function summaryOf(
  outcomes: readonly Outcome[],
  cases: readonly CorpusCase[],
): Record<string, Sensitivity> {
  const years = new Map(cases.map((one) => [one.name, healthyYears(one)]));
  const asItIs = new Map(outcomes.filter(({ id }) => id === '').map((one) => [one.case, one]));
  const summary: Record<string, Sensitivity> = {};
  for (const outcome of outcomes.filter(({ id }) => id !== '').toSorted((a, b) => compare(a.id, b.id))) {
    const { id, value, factor } = outcome;
    const before = asItIs.get(outcome.case);
    if (value === undefined || factor === 1 || !before) continue;
    const one = (summary[id] ??= { value, ...NOTHING_TRIED, tried: {} });
    const step = (one.tried[factor] ??= { value: scaledValue(id, value, factor), found: 0, falseAlarms: 0 });
    step.found += outcome.found === true ? 1 : 0;
    step.falseAlarms += outcome.falseAlarms.length;
    // Each case was tried with every factor: it is counted with the first.
    if (factor !== FACTORS[0]) continue;
    one.wells++;
    one.usedIn += outcome.unused ? 0 : 1;
    one.faults += before.found === undefined ? 0 : 1;
    one.found += before.found === true ? 1 : 0;
    one.falseAlarms += before.falseAlarms.length;
    one.soundYears += years.get(outcome.case) ?? 0;
  }
  return summary;
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}

const MAX_RECALL_LOSS = 0.05;
const MAX_FALSE_ALARM_RISE_A_YEAR = 0.1;

/** A fifth more or less of a fragile threshold costs more than either of these. */
export function isFragile({ faults, found, falseAlarms, soundYears, tried }: Sensitivity): boolean {
  return Object.values(tried).some(
    (step) =>
      found - step.found > MAX_RECALL_LOSS * faults ||
      step.falseAlarms - falseAlarms > MAX_FALSE_ALARM_RISE_A_YEAR * soundYears,
  );
}

/** As it is kept: a line for each threshold. */
export function summaryText({ thresholds, ...rest }: MeasuredSensitivity): string {
  const lines = Object.entries(thresholds).map(
    ([id, one]) => `${JSON.stringify(id)}: ${JSON.stringify(one)}`,
  );
  return `${JSON.stringify(rest).slice(0, -1)}, "thresholds": {\n${lines.join(',\n')}\n}}\n`;
}
