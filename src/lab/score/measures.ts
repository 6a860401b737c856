/**
 * How near the numbers are: edges in readings, amps, pressures, litres, water a day, leaks, each
 * against the truth. Litres, water and leaks are asked for only where the card has the tank and
 * nothing is wrong yet that would make the card untrue.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { Card } from '../../core/domain/card.ts';
import type { TrueDay } from '../plant/params.ts';
import type { CorpusCase } from './case.ts';
import { matchCycles, msOf, readingsOff, type Match } from './match.ts';
import type { PlayResult } from './play.ts';
import { addTo, mergeInto, newHistogram, type Histogram } from './histogram.ts';

export interface Measures {
  cycles: { required: number; found: number; reported: number; extra: number };
  startReadings: Histogram;
  stopReadings: Histogram;
  amps: Histogram;
  cutInKpa: Histogram;
  cutOutKpa: Histogram;
  /** Relative. */
  litres: Histogram;
  litresRequired: number;
  usedDay: Histogram;
  usedDaysRequired: number;
  leak: Histogram;
  leakDaysRequired: number;
  /** What is said to leak where nothing does, L/h. */
  falseLeak: Histogram;
  /** The first few true runs that were not found, and false cycles, those without a true run. */
  missed: string[];
  extra: string[];
}

/** A shorter run's litres are a matter of the readings, not of the water. */
const MIN_RUN_L = 1;
/** As the check of recordings has it: a share of almost nothing says nothing. */
const MIN_DAY_L = 50;
/** From 5 L/h up a leak is to be measured. */
const MIN_LEAK_L_PER_DAY = 120;
const MAX_LISTED = 20;

export function newMeasures(): Measures {
  return {
    cycles: { required: 0, found: 0, reported: 0, extra: 0 },
    startReadings: newHistogram(),
    stopReadings: newHistogram(),
    amps: newHistogram(),
    cutInKpa: newHistogram(),
    cutOutKpa: newHistogram(),
    litres: newHistogram(),
    litresRequired: 0,
    usedDay: newHistogram(),
    usedDaysRequired: 0,
    leak: newHistogram(),
    leakDaysRequired: 0,
    falseLeak: newHistogram(),
    missed: [],
    extra: [],
  };
}

export function measure(corpusCase: CorpusCase, card: Card, played: PlayResult): Measures {
  const measures = newMeasures();
  const { fromMs, days, node, fault } = corpusCase;
  const everyMs = (node.meanS ?? (node.everyS || 1)) * 1000;
  const { matches, unmatched } = matchCycles({
    truth: played.truth.cycles,
    reported: played.cycles,
    gaps: played.gaps,
    everyMs,
    fromMs,
    untilMs: fromMs + days * DAY_MS,
  });
  measures.cycles.reported = played.cycles.length;
  measures.cycles.extra = unmatched.length;
  measures.extra = unmatched
    .slice(0, MAX_LISTED)
    .map(({ started, ranS, pump }) => `${started} ${pump} ${ranS} s`);
  const soundUntilMs = fault?.beganMs ?? Number.POSITIVE_INFINITY;
  const withTank = card.tank?.kind === 'captive-air' && node.withoutPressure !== true;
  for (const match of matches) {
    if (match.required)
      measureCycle(measures, match, everyMs, withTank && match.truth.stoppedMs < soundUntilMs);
  }
  if (withTank) measureDays(measures, corpusCase, card, played);
  return measures;
}

function measureCycle(measures: Measures, match: Match, everyMs: number, withLitres: boolean): void {
  const { truth, reported } = match;
  measures.cycles.required++;
  const litresRequired = withLitres && truth.deliveredL >= MIN_RUN_L;
  if (litresRequired) measures.litresRequired++;
  if (!reported) {
    if (measures.missed.length < MAX_LISTED) measures.missed.push(runText(match));
    return;
  }
  measures.cycles.found++;
  addTo(measures.startReadings, readingsOff(msOf(reported.started), truth.startedMs, everyMs));
  addTo(measures.stopReadings, readingsOff(msOf(reported.stopped), truth.stoppedMs, everyMs));
  if (reported.amps !== undefined && truth.amps)
    addTo(measures.amps, Math.abs(reported.amps / truth.amps - 1));
  if (reported.cutInKpa !== undefined && truth.cutInKpa !== undefined)
    addTo(measures.cutInKpa, Math.abs(reported.cutInKpa - truth.cutInKpa));
  if (reported.cutOutKpa !== undefined && truth.cutOutKpa !== undefined)
    addTo(measures.cutOutKpa, Math.abs(reported.cutOutKpa - truth.cutOutKpa));
  if (litresRequired && reported.deliveredL !== undefined)
    addTo(measures.litres, Math.abs(reported.deliveredL / truth.deliveredL - 1));
}

function runText({ truth }: Match): string {
  const { startedMs, stoppedMs, pump } = truth;
  return `${new Date(startedMs).toISOString()} p${pump + 1} ${(stoppedMs - startedMs) / 1000} s`;
}

function measureDays(measures: Measures, corpusCase: CorpusCase, card: Card, played: PlayResult): void {
  const { fault, node, fromMs } = corpusCase;
  const reported = new Map(played.days.filter(isWaterDay(card)).map((day) => [day.date, day]));
  const dateOf = dateIn(card.timeZone);
  const beganMs = fault?.beganMs ?? Number.POSITIVE_INFINITY;
  const aroundMs = 1000 * node.packS;
  for (const day of played.truth.days) {
    if (day.startMs < fromMs || hasGap(day, played, aroundMs)) continue;
    // The day's line may be of another day where the zone has summer time: then nothing is asked.
    if (dateOf(day.startMs) !== dateOf(day.endMs - 1)) continue;
    const dayEvent = reported.get(dateOf(day.startMs));
    if (day.endMs <= beganMs) measureHealthyDay(measures, day, dayEvent);
    // A leak that has begun within the day has no one rate.
    if (day.startMs >= beganMs || fault === undefined) measureLeak(measures, day, dayEvent);
  }
}

function measureHealthyDay(measures: Measures, day: TrueDay, dayEvent: DayEvent | undefined): void {
  if (day.leakL === 0 && dayEvent?.leakLPerDay !== undefined)
    addTo(measures.falseLeak, Math.max(0, dayEvent.leakLPerDay) / 24);
  if (day.usedL < MIN_DAY_L) return;
  measures.usedDaysRequired++;
  if (dayEvent?.usedL !== undefined) addTo(measures.usedDay, Math.abs(dayEvent.usedL / day.usedL - 1));
}

function measureLeak(measures: Measures, day: TrueDay, dayEvent: DayEvent | undefined): void {
  if (day.leakL < MIN_LEAK_L_PER_DAY) return;
  measures.leakDaysRequired++;
  if (dayEvent?.leakLPerDay !== undefined)
    addTo(measures.leak, Math.abs(dayEvent.leakLPerDay / day.leakL - 1));
}

/** A well with several pumps has a line of its own for the water fields. */
function isWaterDay(card: Card): (day: DayEvent) => boolean {
  return ({ pump }) => (card.pumps.length > 1 ? pump === undefined : true);
}

function hasGap({ startMs, endMs }: TrueDay, { gaps }: PlayResult, aroundMs: number): boolean {
  return gaps.some(({ fromMs, untilMs }) => fromMs - aroundMs < endMs && untilMs + aroundMs > startMs);
}

function dateIn(timeZone: string): (tMs: number) => string {
  const format = new Intl.DateTimeFormat('en-CA', {
    timeZone,
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  });
  return (tMs) => format.format(tMs);
}

const HISTOGRAMS = [
  'startReadings',
  'stopReadings',
  'amps',
  'cutInKpa',
  'cutOutKpa',
  'litres',
  'usedDay',
  'leak',
  'falseLeak',
] as const satisfies readonly (keyof Measures)[];
export type HistogramName = (typeof HISTOGRAMS)[number];

/** Puts the measures of another case into these. */
export function addMeasures(sum: Measures, one: Measures): void {
  for (const key of ['required', 'found', 'reported', 'extra'] as const) sum.cycles[key] += one.cycles[key];
  for (const key of HISTOGRAMS) mergeInto(sum[key], one[key]);
  for (const key of ['litresRequired', 'usedDaysRequired', 'leakDaysRequired'] as const) sum[key] += one[key];
}
