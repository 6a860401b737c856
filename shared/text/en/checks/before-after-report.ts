/**
 * The proof of a visit in words: each measure's name, its values, and one sentence that claims no
 * more than was seen.
 */
import type { ReportLineAnswer, ReportMeasure, ReportSide, VisitAnswer } from '../../../api/visits.ts';
import { formatNumber, formatQuantity, type UnitSystem } from '../../../quantity/format-quantity.ts';
import { DAY_MS } from '../../../units/duration.ts';
import { formatAmps, formatDuration, formatFlow, formatVolume } from '../format.ts';

export const MEASURE_TITLES: Record<ReportMeasure, string> = {
  amps: 'Running amps',
  'fill-time': 'Time of a fill',
  'cut-in': 'Cut-in',
  'cut-out': 'Cut-out',
  'cycles-a-day': 'Cycles a day',
  leak: 'Leak',
  delivery: 'Delivery',
};

/** What each measure is taken from, where its name does not say it. */
export const MEASURE_NOTES: Partial<Record<ReportMeasure, string>> = {
  'fill-time': 'the quicker half of the runs, which is nearest to a fill with every tap shut',
  'cycles-a-day': 'whole days that were heard',
  leak: 'whole days with quiet minutes to judge by',
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

/** With a decimal: what changed is often a pound or two. */
function formatFinePressure(kpa: number, units: UnitSystem): string {
  return formatQuantity(kpa, 'pressure', units, units === 'us' ? 1 : 0);
}

export function formatMeasure(measure: ReportMeasure, value: number, units: UnitSystem): string {
  return FORMATTERS[measure](value, units);
}

export interface ReportStage {
  /** The visit is still open. */
  isOpen: boolean;
  /** The days after it are over: what is not known by now will not be. */
  isOver: boolean;
}

/** `days`: how far both sides reach. */
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
      return `${is} after. Too little was seen before the visit to compare it with: ${before.count} of ${minCount} ${of}.`;
    case 'within-spread':
      return `${was} before, ${is} after: no further apart than scatter and what the sensors can tell apart (${format(threshold)}).`;
    case 'changed':
      return `${was} before, ${is} after: ${format(Math.abs(difference))} ${difference > 0 ? 'more' : 'less'}. Scatter and what the sensors can tell apart: ${format(threshold)}.`;
    default:
      return line.verdict satisfies never;
  }
}

/** Of the fills half count, so that nobody misses the other half of the runs that were seen. */
function countedUnit({ measure, sampleKind }: ReportLineAnswer): string {
  return measure === 'fill-time' ? 'quicker runs' : sampleKind;
}

function notKnownText(line: ReportLineAnswer, { isOpen, isOver }: ReportStage): string {
  const { after, minCount } = line;
  const of = countedUnit(line);
  if (isOpen) return 'Not known yet: the visit is still open.';
  if (isOver) return `Not known: ${after.count} of ${minCount} ${of} were seen after the visit.`;
  return `Not known yet: ${after.count} of ${minCount} ${of} since the visit was closed.`;
}

/** What the proof as a whole may be taken for. */
export const REPORT_CAVEAT =
  'This compares what was measured on both sides of a visit. Where something changed it says by how much; it does not say that the work caused it, that the water is fit to drink, or that it will last.';
