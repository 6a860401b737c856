/**
 * The before/after report of a visit in words: each measure's name, its values, and one sentence
 * that claims no more than was measured.
 */
import type { ReportLineAnswer, ReportMeasure, ReportSide, VisitAnswer } from '../../../api/visits.ts';
import { formatNumber, formatQuantity, type UnitSystem } from '../../../quantity/format-quantity.ts';
import { DAY_MS } from '../../../units/duration.ts';
import { formatAmps, formatDuration, formatFlow, formatVolume } from '../format.ts';

export const MEASURE_TITLES: Record<ReportMeasure, string> = {
  amps: 'Running amps',
  'fill-time': 'Fill time',
  'cut-in': 'Cut-in',
  'cut-out': 'Cut-out',
  'cycles-a-day': 'Cycles per day',
  leak: 'Leak',
  delivery: 'Delivery',
};

/** What each measure is based on, if its name does not say so. */
export const MEASURE_NOTES: Partial<Record<ReportMeasure, string>> = {
  'fill-time': 'the faster half of the runs, which are closest to a fill with all taps closed',
  'cycles-a-day': 'full days with data',
  leak: 'full days with enough minutes when no water was drawn',
  delivery: 'all water that the pump lifted, over the time it ran',
};

const FORMATTERS: Record<ReportMeasure, (value: number, units: UnitSystem) => string> = {
  amps: formatAmps,
  'fill-time': formatDuration,
  'cut-in': formatFinePressure,
  'cut-out': formatFinePressure,
  'cycles-a-day': (n) => formatNumber(n, n < 10 ? 1 : 0),
  leak: (l, units) => `${formatVolume(l, units)} a day`,
  delivery: formatFlow,
};

/** With a decimal: a change is often only a pound or two. */
function formatFinePressure(kpa: number, units: UnitSystem): string {
  return formatQuantity(kpa, 'pressure', units, units === 'us' ? 1 : 0);
}

export function formatMeasure(measure: ReportMeasure, value: number, units: UnitSystem): string {
  return FORMATTERS[measure](value, units);
}

export interface ReportStage {
  /** The visit is still open. */
  isOpen: boolean;
  /**
   * The days after the visit that are compared are over. What is not known by now never will be.
   */
  isOver: boolean;
}

/** `days`: how many days before and after the visit are compared. */
export function reportStage(report: { visit: VisitAnswer; nowMs: number; days: number }): ReportStage {
  const { closedMs } = report.visit;
  return {
    isOpen: closedMs === undefined,
    isOver: closedMs !== undefined && report.nowMs - closedMs > report.days * DAY_MS,
  };
}

/** "14 runs, 7.9 A, spread 0.1 A". */
export function reportSideText(
  line: ReportLineAnswer,
  { count, median, spread }: ReportSide,
  units: UnitSystem,
): string {
  const { measure } = line;
  const of = countedUnit(line);
  if (median === undefined) return `no ${of}`;
  return `${count} ${of}, ${formatMeasure(measure, median, units)}, spread ${formatMeasure(measure, spread ?? 0, units)}`;
}

export function reportLineText(line: ReportLineAnswer, stage: ReportStage, units: UnitSystem): string {
  const format = (value: number): string => formatMeasure(line.measure, value, units);
  const { before, after, minCount, difference = 0, threshold = 0 } = line;
  const of = countedUnit(line);
  const [was, is] = [format(before.median ?? 0), format(after.median ?? 0)];
  switch (line.verdict) {
    case 'pending':
      return notKnownText(line, stage);
    case 'no-baseline':
      return `${is} after. Too little data before the visit to compare: ${before.count} of ${minCount} ${of}.`;
    case 'within-spread':
      return `${was} before, ${is} after: the difference is within scatter and sensor resolution (${format(threshold)}).`;
    case 'changed':
      return `${was} before, ${is} after: ${format(Math.abs(difference))} ${difference > 0 ? 'more' : 'less'}. Scatter and sensor resolution: ${format(threshold)}.`;
    default:
      return line.verdict satisfies never;
  }
}

const SAMPLE_WORDS: Record<ReportLineAnswer['sampleKind'], string> = { runs: 'runs', days: 'days' };

/** Only the faster half of the fills counts; the unit says so, so that nobody misses the others. */
function countedUnit({ measure, sampleKind }: ReportLineAnswer): string {
  return measure === 'fill-time' ? 'faster runs' : SAMPLE_WORDS[sampleKind];
}

function notKnownText(line: ReportLineAnswer, { isOpen, isOver }: ReportStage): string {
  const { after, minCount } = line;
  const of = countedUnit(line);
  if (isOpen) return 'Not known yet: the visit is still open.';
  if (isOver) return `Not known: only ${after.count} of ${minCount} ${of} after the visit.`;
  return `Not known yet: ${after.count} of ${minCount} ${of} since the visit was closed.`;
}

/** What the report as a whole shows and does not show. */
export const REPORT_CAVEAT =
  'This report compares measurements before and after a visit. It shows what changed and by how much. It does not show that the work caused the change, that the water is safe to drink, or that the change will last.';
