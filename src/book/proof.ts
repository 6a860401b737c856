/**
 * Before and after a visit: what the runs and days on either side showed, each with how many they were, their median and how far they
 * scatter. It says what changed by more than that scatter and claims nothing else: not that a repair was right, nor that it will last.
 */
import type { BaselineEvent, CycleEvent, DayEvent } from '../../shared/api/events.ts';
import { normalOf } from '../baseline/robust.ts';
import { endOfDateMs, localDayAt } from '../engine/local-day.ts';
import type { Visit } from './visits.ts';

export const MEASURES = [
  'amps',
  'fill-time',
  'cut-in',
  'cut-out',
  'cycles-a-day',
  'leak',
  'delivery',
] as const;
export type Measure = (typeof MEASURES)[number];

export interface Side {
  n: number;
  /** Absent without a single one. Both SI; leak in litres a day, cycles as their number. */
  median?: number;
  /** 1.4826 x MAD. */
  spread?: number;
  /** Oldest first, thinned to what a small drawing can show. */
  values: number[];
}

export type Verdict = 'not-known-yet' | 'no-before' | 'within-spread' | 'changed';

export interface ProofLine {
  measure: Measure;
  of: 'runs' | 'days';
  /** So many on either side before anything is said. */
  needed: number;
  before: Side;
  after: Side;
  /** What was normal before the visit, learnt or pinned. */
  usual?: number;
  verdict: Verdict;
  /** After less before, where both are known. */
  by?: number;
  /** What it was held against: the larger scatter of the two sides, and at least what can be read at all. */
  over?: number;
}

export interface ProofQuestion {
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
export const PROOF_DAYS = 14;
const DAY_MS = 86_400_000;
/** The median of ten runs is uncertain by 0.4 of their scatter (1.2533 / sqrt 10, for a normal one); of three days by 0.7. */
const RUNS_NEEDED = 10;
const DAYS_NEEDED = 3;
/** The runs nearest the visit: enough for a median, few enough that a slow change of the season is not in them. */
const MOST_RUNS = 200;
const MOST_DRAWN = 40;
/** A day heard less than this teaches nothing (contract, section 6). */
const HEARD_SHARE = 0.95;

/** What cannot be told apart on common sensors, whatever the scatter: half a psi, a few seconds, a gallon (common practice, no source). */
const LEAST: Record<Measure, (median: number) => number> = {
  amps: (amps) => Math.max(0.05, 0.01 * amps),
  'fill-time': () => 2,
  'cut-in': () => 3.5,
  'cut-out': () => 3.5,
  'cycles-a-day': () => 1,
  leak: () => 4,
  delivery: (lPerS) => 0.02 * lPerS,
};

/** Windows of a visit in which runs are compared, Unix ms. */
export function proofWindows({ openedMs, closedMs, quietFromMs, quietUntilMs }: Visit): {
  before: [number, number];
  after: [number, number] | undefined;
} {
  const span = PROOF_DAYS * DAY_MS;
  return {
    before: [Math.max(openedMs - span, quietFromMs ?? 0), openedMs],
    after:
      closedMs === undefined ? undefined : [closedMs, Math.min(closedMs + span, quietUntilMs ?? Infinity)],
  };
}

export function proofOf(question: ProofQuestion): ProofLine[] {
  const { before, after } = proofWindows(question.visit);
  const usual = usualBefore(question);
  return MEASURES.map((measure) => {
    const of = measure === 'cycles-a-day' || measure === 'leak' ? 'days' : 'runs';
    const side = (window: [number, number] | undefined, nearest: 'last' | 'first'): Side =>
      sideOf(window ? valuesOf(measure, question, window) : [], nearest);
    return judge({
      measure,
      of,
      before: side(before, 'last'),
      after: side(after, 'first'),
      usual: usual[measure],
    });
  });
}

function judge(line: {
  measure: Measure;
  of: 'runs' | 'days';
  before: Side;
  after: Side;
  usual: number | undefined;
}): ProofLine {
  const { measure, of, before, after, usual } = line;
  const needed = of === 'runs' ? RUNS_NEEDED : DAYS_NEEDED;
  const whole = { measure, of, needed, before, after, ...(usual !== undefined && { usual }) };
  if (after.n < needed || after.median === undefined) return { ...whole, verdict: 'not-known-yet' };
  if (before.n < needed || before.median === undefined) return { ...whole, verdict: 'no-before' };
  const by = after.median - before.median;
  const over = Math.max(before.spread ?? 0, after.spread ?? 0, LEAST[measure](before.median));
  return { ...whole, verdict: Math.abs(by) > over ? 'changed' : 'within-spread', by, over };
}

function sideOf(values: number[], nearest: 'last' | 'first'): Side {
  const near = nearest === 'last' ? values.slice(-MOST_RUNS) : values.slice(0, MOST_RUNS);
  const normal = normalOf(near);
  const step = Math.max(1, near.length / MOST_DRAWN);
  const drawn = Array.from(
    { length: Math.min(near.length, MOST_DRAWN) },
    (_, i) => near[Math.floor(i * step)]!,
  );
  return { n: near.length, ...(normal && { median: normal.median, spread: normal.spread }), values: drawn };
}

/** A run of which this cannot be said: the pump did not turn, or what was read of it has a hole. */
const BROKEN: readonly string[] = ['failed-start', 'gap', 'clock-step', 'merged'];

function valuesOf(measure: Measure, question: ProofQuestion, [fromMs, toMs]: [number, number]): number[] {
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
  if (measure === 'fill-time') return quickerHalf(runs);
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

/** A run is longer for all that is drawn meanwhile: the quicker half is nearest to a fill with every tap shut. */
function quickerHalf(runs: readonly CycleEvent[]): number[] {
  const full = runs.filter(({ flags }) => !flags.includes('no-cut-out')).map(({ ranS }) => ranS);
  const middle = normalOf(full)?.median ?? 0;
  return full.filter((ranS) => ranS <= middle);
}

/** Whole local days of this pump, or of the well, that lie in the window and were heard. */
function wholeDays({ days, pump, timeZone }: ProofQuestion, fromMs: number, toMs: number): DayEvent[] {
  return days.filter((day) => {
    if (day.pump !== undefined && day.pump !== pump) return false;
    const endMs = endOfDateMs(day.date, timeZone);
    const { startMs } = localDayAt(endMs - 1, timeZone);
    const heard = day.heardS === undefined || day.heardS * 1000 >= HEARD_SHARE * (endMs - startMs);
    return startMs >= fromMs && endMs <= toMs && heard;
  });
}

function usualBefore({
  baselines,
  pump,
  visit,
}: ProofQuestion): Partial<Record<Measure, number | undefined>> {
  const told = baselines.findLast((one) => one.pump === pump && Date.parse(one.at) <= visit.openedMs);
  return {
    amps: told?.amps,
    'cut-in': told?.cutInKpa,
    'cut-out': told?.cutOutKpa,
    'cycles-a-day': told?.cyclesPerDay,
  };
}
