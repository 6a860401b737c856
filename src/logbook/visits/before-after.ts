/**
 * Before and after a visit: what the runs and days on either side showed, each with how many they
 * were, their median and how far they scatter. It says what changed by more than that scatter and
 * claims nothing else: not that a repair was right, nor that it will last.
 */
import type { BaselineEvent, CycleEvent, DayEvent } from '../../../shared/api/events.ts';
import {
  REPORT_MEASURES,
  type ReportLineAnswer,
  type ReportMeasure,
  type ReportSide,
} from '../../../shared/api/visits.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { normalOf } from '../../core/baseline/robust.ts';
import { endOfDateMs, localDayAt } from '../../core/well/local-day.ts';
import type { Visit } from './visits.ts';

export interface ReportInput {
  visit: Visit;
  pump: string;
  timeZone: string;
  /** Of this pump, at least of both windows. */
  cycles: readonly CycleEvent[];
  days: readonly DayEvent[];
  /** All of the well, oldest first. */
  baselines: readonly BaselineEvent[];
}

/** Both sides reach this far from the visit, or to the next one. */
export const REPORT_DAYS = 14;
/**
 * The median of ten runs is uncertain by 0.4 of their scatter (1.2533 / sqrt 10, for a normal one);
 * of three days by 0.7.
 */
const MIN_RUNS = 10;
const MIN_DAYS = 3;
/**
 * The runs nearest the visit: enough for a median, few enough that a slow change of the season is
 * not in them.
 */
const MAX_RUNS = 200;
const MAX_POINTS = 40;
/** A day heard less than this teaches nothing (contract, section 6). */
const MIN_COVERAGE_RATIO = 0.95;

/**
 * What cannot be told apart on common sensors, whatever the scatter: half a psi, a few seconds, a
 * gallon (common practice, no source).
 */
const MIN_DIFFERENCE: Record<ReportMeasure, (median: number) => number> = {
  amps: (amps) => Math.max(0.05, 0.01 * amps),
  'fill-time': () => 2,
  'cut-in': () => 3.5,
  'cut-out': () => 3.5,
  'cycles-a-day': () => 1,
  leak: () => 4,
  delivery: (lPerS) => 0.02 * lPerS,
};

/** Windows of a visit in which runs are compared, Unix ms. */
export function reportWindows({ openedMs, closedMs, windowStartMs, windowEndMs }: Visit): {
  before: [number, number];
  after: [number, number] | undefined;
} {
  const span = REPORT_DAYS * DAY_MS;
  return {
    before: [Math.max(openedMs - span, windowStartMs ?? 0), openedMs],
    after:
      closedMs === undefined ? undefined : [closedMs, Math.min(closedMs + span, windowEndMs ?? Infinity)],
  };
}

export function beforeAfterReport(input: ReportInput): ReportLineAnswer[] {
  const { before, after } = reportWindows(input.visit);
  const normals = normalBefore(input);
  return REPORT_MEASURES.map((measure) => {
    const sampleKind = measure === 'cycles-a-day' || measure === 'leak' ? 'days' : 'runs';
    const side = (window: [number, number] | undefined, nearest: 'last' | 'first'): ReportSide =>
      reportSide(window ? measuredValues(measure, input, window) : [], nearest);
    return compareSides({
      measure,
      sampleKind,
      before: side(before, 'last'),
      after: side(after, 'first'),
      normal: normals[measure],
    });
  });
}

function compareSides(line: {
  measure: ReportMeasure;
  sampleKind: 'runs' | 'days';
  before: ReportSide;
  after: ReportSide;
  normal: number | undefined;
}): ReportLineAnswer {
  const { measure, sampleKind, before, after, normal } = line;
  const minCount = sampleKind === 'runs' ? MIN_RUNS : MIN_DAYS;
  const base = { measure, sampleKind, minCount, before, after, ...(normal !== undefined && { normal }) };
  if (after.count < minCount || after.median === undefined) return { ...base, verdict: 'pending' };
  if (before.count < minCount || before.median === undefined) return { ...base, verdict: 'no-baseline' };
  const difference = after.median - before.median;
  const threshold = Math.max(before.spread ?? 0, after.spread ?? 0, MIN_DIFFERENCE[measure](before.median));
  return {
    ...base,
    verdict: Math.abs(difference) > threshold ? 'changed' : 'within-spread',
    difference,
    threshold,
  };
}

function reportSide(values: number[], nearest: 'last' | 'first'): ReportSide {
  const near = nearest === 'last' ? values.slice(-MAX_RUNS) : values.slice(0, MAX_RUNS);
  const normal = normalOf(near);
  const step = Math.max(1, near.length / MAX_POINTS);
  const drawn = Array.from(
    { length: Math.min(near.length, MAX_POINTS) },
    (_, i) => near[Math.floor(i * step)]!,
  );
  return {
    count: near.length,
    ...(normal && { median: normal.median, spread: normal.spread }),
    values: drawn,
  };
}

/** A run of which this cannot be said: the pump did not turn, or what was read of it has a hole. */
const BROKEN: readonly string[] = ['failed-start', 'gap', 'clock-step', 'merged'];

function measuredValues(
  measure: ReportMeasure,
  question: ReportInput,
  [fromMs, toMs]: [number, number],
): number[] {
  if (measure === 'cycles-a-day' || measure === 'leak')
    return wholeDays(question, fromMs, toMs).flatMap((day) => {
      const value = measure === 'leak' ? day.leakLPerDay : day.cycles;
      return value === undefined ? [] : [value];
    });
  const runs = question.cycles.filter(
    ({ pump, started, stopped, flags }) =>
      pump === question.pump &&
      Date.parse(started) >= fromMs &&
      Date.parse(stopped) <= toMs &&
      !flags.some((flag) => BROKEN.includes(flag)),
  );
  if (measure === 'fill-time') return fasterHalf(runs);
  return runs.flatMap((run) => RUN_VALUE[measure](run) ?? []);
}

const RUN_VALUE: Record<'amps' | 'cut-in' | 'cut-out' | 'delivery', (run: CycleEvent) => number | undefined> =
  {
    amps: (run) => run.amps,
    'cut-in': (run) => run.cutInKpa,
    'cut-out': (run) => run.cutOutKpa,
    delivery: ({ deliveredL, ranS }) =>
      deliveredL === undefined || ranS <= 0 ? undefined : deliveredL / ranS,
  };

/**
 * A run is longer for all that is drawn meanwhile: the quicker half is nearest to a fill with every
 * tap shut.
 */
function fasterHalf(runs: readonly CycleEvent[]): number[] {
  const full = runs.filter(({ flags }) => !flags.includes('no-cut-out')).map(({ ranS }) => ranS);
  const middle = normalOf(full)?.median ?? 0;
  return full.filter((ranS) => ranS <= middle);
}

/** Whole local days of this pump, or of the well, that lie in the window and were heard. */
function wholeDays({ days, pump, timeZone }: ReportInput, fromMs: number, toMs: number): DayEvent[] {
  return days.filter((day) => {
    if (day.pump !== undefined && day.pump !== pump) return false;
    const endMs = endOfDateMs(day.date, timeZone);
    const { startMs } = localDayAt(endMs - 1, timeZone);
    const heard = day.heardS === undefined || day.heardS * 1000 >= MIN_COVERAGE_RATIO * (endMs - startMs);
    return startMs >= fromMs && endMs <= toMs && heard;
  });
}

function normalBefore({
  baselines,
  pump,
  visit,
}: ReportInput): Partial<Record<ReportMeasure, number | undefined>> {
  const baseline = baselines.findLast((one) => one.pump === pump && Date.parse(one.at) <= visit.openedMs);
  return {
    amps: baseline?.amps,
    'cut-in': baseline?.cutInKpa,
    'cut-out': baseline?.cutOutKpa,
    'cycles-a-day': baseline?.cyclesPerDay,
  };
}
