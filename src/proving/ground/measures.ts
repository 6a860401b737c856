/**
 * How near the numbers are: edges in readings, amps, pressures, litres, water a day, leaks, each against the truth. Litres, water and
 * leaks are asked for only where the card has the tank and nothing is wrong yet that would make the card untrue.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import type { Card } from '../../card/card.ts';
import type { TrueDay } from '../plant/params.ts';
import type { CorpusCase } from './case.ts';
import { matchCycles, msOf, readingsOff, type Match } from './match.ts';
import type { Played } from './play.ts';
import { addTo, mergeInto, newSpread, type Spread } from './spread.ts';

export interface Measures {
  cycles: { asked: number; found: number; said: number; extra: number };
  startReadings: Spread;
  stopReadings: Spread;
  amps: Spread;
  cutInKpa: Spread;
  cutOutKpa: Spread;
  /** Relative. */
  litres: Spread;
  litresAsked: number;
  usedDay: Spread;
  usedDaysAsked: number;
  leak: Spread;
  leakDaysAsked: number;
  /** What is said to leak where nothing does, L/h. */
  leakOfSound: Spread;
  /** The first few true runs that were not found, and cycles that no run stands behind. */
  missed: string[];
  extra: string[];
}

const DAY_MS = 86_400_000;
/** A shorter run's litres are a matter of the readings, not of the water. */
const LEAST_RUN_L = 1;
/** As the check of recordings has it: a share of almost nothing says nothing. */
const LEAST_DAY_L = 50;
/** From 5 L/h up a leak is to be measured. */
const LEAST_LEAK_L_PER_DAY = 120;
const MOST_TOLD = 20;

export function newMeasures(): Measures {
  return {
    cycles: { asked: 0, found: 0, said: 0, extra: 0 },
    startReadings: newSpread(),
    stopReadings: newSpread(),
    amps: newSpread(),
    cutInKpa: newSpread(),
    cutOutKpa: newSpread(),
    litres: newSpread(),
    litresAsked: 0,
    usedDay: newSpread(),
    usedDaysAsked: 0,
    leak: newSpread(),
    leakDaysAsked: 0,
    leakOfSound: newSpread(),
    missed: [],
    extra: [],
  };
}

export function measure(corpusCase: CorpusCase, card: Card, played: Played): Measures {
  const measures = newMeasures();
  const { fromMs, days, node, fault } = corpusCase;
  const everyMs = (node.everyS || 1) * 1000;
  const { matches, extra } = matchCycles({
    truth: played.truth.cycles,
    said: played.cycles,
    unheard: played.unheard,
    everyMs,
    fromMs,
    untilMs: fromMs + days * DAY_MS,
  });
  measures.cycles.said = played.cycles.length;
  measures.cycles.extra = extra.length;
  measures.extra = extra.slice(0, MOST_TOLD).map(({ started, ranS, pump }) => `${started} ${pump} ${ranS} s`);
  const soundUntilMs = fault?.beganMs ?? Number.POSITIVE_INFINITY;
  const withTank = card.tank?.kind === 'captive-air' && node.withoutPressure !== true;
  for (const match of matches) {
    if (match.asked) measureCycle(measures, match, everyMs, withTank && match.truth.stoppedMs < soundUntilMs);
  }
  if (withTank) measureDays(measures, corpusCase, card, played);
  return measures;
}

function measureCycle(measures: Measures, match: Match, everyMs: number, asksLitres: boolean): void {
  const { truth, said } = match;
  measures.cycles.asked++;
  const litresAsked = asksLitres && truth.deliveredL >= LEAST_RUN_L;
  if (litresAsked) measures.litresAsked++;
  if (!said) {
    if (measures.missed.length < MOST_TOLD) measures.missed.push(runText(match));
    return;
  }
  measures.cycles.found++;
  addTo(measures.startReadings, readingsOff(msOf(said.started), truth.startedMs, everyMs));
  addTo(measures.stopReadings, readingsOff(msOf(said.stopped), truth.stoppedMs, everyMs));
  if (said.amps !== undefined && truth.amps) addTo(measures.amps, Math.abs(said.amps / truth.amps - 1));
  if (said.cutInKpa !== undefined && truth.cutInKpa !== undefined)
    addTo(measures.cutInKpa, Math.abs(said.cutInKpa - truth.cutInKpa));
  if (said.cutOutKpa !== undefined && truth.cutOutKpa !== undefined)
    addTo(measures.cutOutKpa, Math.abs(said.cutOutKpa - truth.cutOutKpa));
  if (litresAsked && said.deliveredL !== undefined)
    addTo(measures.litres, Math.abs(said.deliveredL / truth.deliveredL - 1));
}

function runText({ truth }: Match): string {
  const { startedMs, stoppedMs, pump } = truth;
  return `${new Date(startedMs).toISOString()} p${pump + 1} ${(stoppedMs - startedMs) / 1000} s`;
}

function measureDays(measures: Measures, corpusCase: CorpusCase, card: Card, played: Played): void {
  const { fault, node, fromMs } = corpusCase;
  const said = new Map(played.days.filter(isWaterLine(card)).map((day) => [day.date, day]));
  const dateOf = dateIn(card.timeZone);
  const beganMs = fault?.beganMs ?? Number.POSITIVE_INFINITY;
  const aroundMs = 1000 * node.packS;
  for (const day of played.truth.days) {
    if (day.startMs < fromMs || isUnheard(day, played, aroundMs)) continue;
    // The day's line may be of another day where the zone has summer time: then nothing is asked.
    if (dateOf(day.startMs) !== dateOf(day.endMs - 1)) continue;
    const line = said.get(dateOf(day.startMs));
    if (day.endMs <= beganMs) measureSoundDay(measures, day, line);
    // A leak that has begun within the day has no one rate.
    if (day.startMs >= beganMs || fault === undefined) measureLeak(measures, day, line);
  }
}

function measureSoundDay(measures: Measures, day: TrueDay, line: DayEvent | undefined): void {
  if (day.leakL === 0 && line?.leakLPerDay !== undefined)
    addTo(measures.leakOfSound, Math.max(0, line.leakLPerDay) / 24);
  if (day.usedL < LEAST_DAY_L) return;
  measures.usedDaysAsked++;
  if (line?.usedL !== undefined) addTo(measures.usedDay, Math.abs(line.usedL / day.usedL - 1));
}

function measureLeak(measures: Measures, day: TrueDay, line: DayEvent | undefined): void {
  if (day.leakL < LEAST_LEAK_L_PER_DAY) return;
  measures.leakDaysAsked++;
  if (line?.leakLPerDay !== undefined) addTo(measures.leak, Math.abs(line.leakLPerDay / day.leakL - 1));
}

/** A well with several pumps has a line of its own for the water fields. */
function isWaterLine(card: Card): (day: DayEvent) => boolean {
  return ({ pump }) => (card.pumps.length > 1 ? pump === undefined : true);
}

function isUnheard({ startMs, endMs }: TrueDay, { unheard }: Played, aroundMs: number): boolean {
  return unheard.some(({ fromMs, untilMs }) => fromMs - aroundMs < endMs && untilMs + aroundMs > startMs);
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

const SPREADS = [
  'startReadings',
  'stopReadings',
  'amps',
  'cutInKpa',
  'cutOutKpa',
  'litres',
  'usedDay',
  'leak',
  'leakOfSound',
] as const satisfies readonly (keyof Measures)[];
export type SpreadName = (typeof SPREADS)[number];

/** Puts the measures of another case into these. */
export function addMeasures(sum: Measures, one: Measures): void {
  for (const key of ['asked', 'found', 'said', 'extra'] as const) sum.cycles[key] += one.cycles[key];
  for (const key of SPREADS) mergeInto(sum[key], one[key]);
  for (const key of ['litresAsked', 'usedDaysAsked', 'leakDaysAsked'] as const) sum[key] += one[key];
}
