/** What is odd about hole, wiring and dates. As in ./questions.ts: asked, never refused. */
import { formatNumber, formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { Dated } from '../../../shared/text/en/questions/card-questions.ts';
import type { Card, PumpCard } from './card.ts';
import { fullLoadAmps } from './motor-tables.ts';
import { texts } from './question-texts.ts';
import { MAX_DROP_RATIO, voltDrop } from './wire-resistance.ts';

interface Question {
  key: string;
  question: string;
}

export interface QuestionOptions {
  units: UnitSystem;
  /** The local date, "2026-03-12"; without it no date is asked about. */
  today?: string;
}

/** A tape on an old rope: 1 ft is no difference. */
const DEPTH_TOLERANCE_M = 0.3;
/**
 * Cables of a motor's circuit carry 125 % of its full-load amps (NEC 430.22); that its breaker
 * should too is common practice.
 */
const MIN_BREAKER_RATIO = 1.25;
/**
 * An inverse-time breaker is 250 % of the amps in the motor tables at most, or the next size made;
 * a dual-element fuse 175 % (NEC 430.52, in The Driller, "Single-phase electrical components"). The
 * tables rule here and not the plate: NEC 430.6(A)(1), from memory.
 */
const MAX_BREAKER_RATIO = 2.5;
/** Breakers as they are made, A (NEC 240.6, from memory). */
const BREAKER_SIZES = [
  15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250,
];

/** `pathOf`: the key of a pump's object, "pump" or "pumps.p2.pump". */
export function descriptionQuestions(
  card: Card,
  options: QuestionOptions,
  pathOf: (pump: PumpCard) => string,
): Question[] {
  return [
    ...card.pumps.flatMap((pump) => depthQuestions(card, pump, pathOf(pump), options)),
    ...card.pumps.flatMap((pump) => yieldQuestions(card, pump, options)),
    ...card.pumps.flatMap((pump) => wireQuestions(card, pump, pathOf(pump))),
    ...holeQuestions(card, options),
    ...breakerQuestions(card),
    ...dateQuestions(card, options, pathOf),
  ];
}

function depthQuestions(card: Card, pump: PumpCard, path: string, { units }: QuestionOptions): Question[] {
  const hole = card.description?.hole;
  const set = pump.setDepthM;
  if (!hole || set === undefined) return [];
  const format = (m: number): string => formatQuantity(m, 'length', units);
  const questions: Question[] = [];
  if (hole.depthM !== undefined && set > hole.depthM + DEPTH_TOLERANCE_M)
    questions.push({
      key: `${path}.setDepth`,
      question: texts().pumpUnderHole({ set: format(set), hole: format(hole.depthM) }),
    });
  if (hole.staticLevelM !== undefined && hole.staticLevelM > set)
    questions.push({
      key: 'hole.staticLevel',
      question: texts().pumpOverWater({ water: format(hole.staticLevelM), set: format(set) }),
    });
  for (const valve of hole.checkValves)
    if ('depthM' in valve && valve.depthM > set + DEPTH_TOLERANCE_M)
      questions.push({
        key: 'hole.checkValves',
        question: texts().valveUnderPump({ valve: format(valve.depthM), set: format(set) }),
      });
  return questions;
}

function yieldQuestions(card: Card, { ratedLPerS }: PumpCard, { units }: QuestionOptions): Question[] {
  const yieldLPerS = card.description?.hole.yieldLPerS;
  if (ratedLPerS === undefined || yieldLPerS === undefined || ratedLPerS <= yieldLPerS) return [];
  const format = (lPerS: number): string => formatQuantity(lPerS, 'flow', units);
  return [
    {
      key: 'hole.yield',
      question: texts().pumpOverYield({ rated: format(ratedLPerS), wellYield: format(yieldLPerS) }),
    },
  ];
}

function wireQuestions({ description }: Card, pump: PumpCard, path: string): Question[] {
  const { volts, phase, maxAmps: amps } = pump;
  if (volts === undefined || phase === undefined || amps === undefined) return [];
  const drop = voltDrop(description?.pumps[pump.id]?.wire, { amps, volts, phase });
  if (!drop || drop.ratio <= MAX_DROP_RATIO) return [];
  const question = texts().voltDrop({
    amps: formatNumber(amps, 1),
    lost: formatNumber(drop.volts, 1),
    percent: formatNumber(drop.ratio * 100, 1),
    volts: formatNumber(volts, 0),
  });
  return [{ key: `${path}.wire.dropSize`, question }];
}

function holeQuestions({ description }: Card, { units }: QuestionOptions): Question[] {
  const { depthM, staticLevelM, casingDepthM } = description?.hole ?? {};
  if (depthM === undefined) return [];
  const format = (m: number): string => formatQuantity(m, 'length', units);
  const isUnder = (m: number | undefined): m is number => m !== undefined && m > depthM + DEPTH_TOLERANCE_M;
  const figures = (m: number): { depth: string; hole: string } => ({
    depth: format(m),
    hole: format(depthM),
  });
  const questions: Question[] = [];
  if (isUnder(staticLevelM))
    questions.push({ key: 'hole.staticLevel', question: texts().waterUnderHole(figures(staticLevelM)) });
  if (isUnder(casingDepthM))
    questions.push({ key: 'hole.casingDepth', question: texts().casingUnderHole(figures(casingDepthM)) });
  return questions;
}

/** Where several pumps hang on the panel, one breaker on the card says nothing of any of them. */
function breakerQuestions({ pumps, description }: Card): Question[] {
  const breakerA = description?.electrical.breakerA;
  const [pump] = pumps;
  if (breakerA === undefined || !pump || pumps.length > 1) return [];
  const amps = pump.maxAmps ?? tableAmpsOfPump(pump);
  if (amps === undefined) return [];
  const key = 'electrical.breakerAmps';
  const figures = {
    breaker: formatNumber(breakerA, 1),
    amps: formatNumber(amps, 1),
    byTables: pump.maxAmps === undefined,
  };
  if (breakerA < amps * MIN_BREAKER_RATIO * 0.999) return [{ key, question: texts().smallBreaker(figures) }];
  const tableA = tableAmpsOfPump(pump) ?? amps;
  const largestA = tableA * MAX_BREAKER_RATIO;
  const maxA = BREAKER_SIZES.find((size) => size >= largestA) ?? largestA;
  if (breakerA <= maxA) return [];
  const question = texts().largeBreaker({
    ...figures,
    tableAmps: formatNumber(tableA, 1),
    isTable: tableA !== amps,
    maxAmps: formatNumber(maxA, 0),
  });
  return [{ key, question }];
}

function tableAmpsOfPump({ motorW, volts, phase }: PumpCard): number | undefined {
  return motorW === undefined || volts === undefined || phase === undefined
    ? undefined
    : fullLoadAmps({ motorW, volts, phase });
}

function dateQuestions(
  { pumps, description }: Card,
  { today }: QuestionOptions,
  pathOf: (pump: PumpCard) => string,
): Question[] {
  const drilled = description?.hole.drilled;
  const dates: { key: string; what: Dated; date: string | undefined }[] = [
    { key: 'hole.drilled', what: 'well', date: drilled },
    ...pumps.map((pump) => ({
      key: `${pathOf(pump)}.installed`,
      what: 'pump' as const,
      date: pump.installed,
    })),
    { key: 'tank.installed', what: 'tank', date: description?.tank.installed },
  ];
  return dates.flatMap(({ key, what, date }): Question[] => {
    if (date === undefined) return [];
    if (today !== undefined && isBefore(today, date))
      return [{ key, question: texts().dateAhead({ what, date }) }];
    if (drilled !== undefined && isBefore(date, drilled))
      return [{ key, question: texts().dateBeforeWell({ what, date, drilled }) }];
    return [];
  });
}

/** By as much of both dates as is known: 2019 is not before 2019-05. */
function isBefore(a: string, b: string): boolean {
  const known = Math.min(a.length, b.length);
  return a.slice(0, known) < b.slice(0, known);
}
