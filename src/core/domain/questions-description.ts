/** What is odd about hole, wiring and dates. As in ./questions.ts: asked, never refused. */
import { formatNumber, formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { Card, PumpCard } from './card.ts';
import { fullLoadAmps } from './motor-tables.ts';
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
      question: `The pump is set at ${format(set)}, and the hole is ${format(hole.depthM)} deep. Which of them is right?`,
    });
  if (hole.staticLevelM !== undefined && hole.staticLevelM > set)
    questions.push({
      key: 'hole.staticLevel',
      question: `Water stands at ${format(hole.staticLevelM)}, under the pump at ${format(set)}: it would hang dry. Which of them is right?`,
    });
  for (const valve of hole.checkValves)
    if ('depthM' in valve && valve.depthM > set + DEPTH_TOLERANCE_M)
      questions.push({
        key: 'hole.checkValves',
        question: `A check valve at ${format(valve.depthM)} is under the pump at ${format(set)}. Which of them is right?`,
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
      question: `The pump is rated ${format(ratedLPerS)}, and the well yields ${format(yieldLPerS)}: drawn on for long it can run dry. Are both right, and what stops the pump then?`,
    },
  ];
}

function wireQuestions({ description }: Card, pump: PumpCard, path: string): Question[] {
  const { volts, phase, maxAmps: amps } = pump;
  if (volts === undefined || phase === undefined || amps === undefined) return [];
  const drop = voltDrop(description?.pumps[pump.id]?.wire, { amps, volts, phase });
  if (!drop || drop.ratio <= MAX_DROP_RATIO) return [];
  const [lost, percent] = [formatNumber(drop.volts, 1), formatNumber(drop.ratio * 100, 1)];
  return [
    {
      key: `${path}.wire.dropSize`,
      question: `At ${formatNumber(amps, 1)} A this wire loses ${lost} V, ${percent} % of ${formatNumber(volts, 0)} V; the motor makers’ tables allow 5 %. Are sizes and lengths right? Whether the wire fits is for an electrician to say.`,
    },
  ];
}

function holeQuestions({ description }: Card, { units }: QuestionOptions): Question[] {
  const { depthM, staticLevelM, casingDepthM } = description?.hole ?? {};
  if (depthM === undefined) return [];
  const format = (m: number): string => formatQuantity(m, 'length', units);
  const under = (key: string, what: string, m: number | undefined): Question[] =>
    m === undefined || m <= depthM + DEPTH_TOLERANCE_M
      ? []
      : [
          {
            key,
            question: `${what} ${format(m)}, and the hole is ${format(depthM)} deep. Which of them is right?`,
          },
        ];
  return [
    ...under('hole.staticLevel', 'Water stands at', staticLevelM),
    ...under('hole.casingDepth', 'The casing goes to', casingDepthM),
  ];
}

/** Where several pumps hang on the panel, one breaker on the card says nothing of any of them. */
function breakerQuestions({ pumps, description }: Card): Question[] {
  const breakerA = description?.electrical.breakerA;
  const [pump] = pumps;
  if (breakerA === undefined || !pump || pumps.length > 1) return [];
  const amps = pump.maxAmps ?? tableAmpsOfPump(pump);
  if (amps === undefined) return [];
  const key = 'electrical.breakerAmps';
  const statement = `The breaker is ${formatNumber(breakerA, 1)} A and the motor draws ${pump.maxAmps === undefined ? 'by the tables about' : 'up to'} ${formatNumber(amps, 1)} A`;
  if (breakerA < amps * MIN_BREAKER_RATIO * 0.999)
    return [
      {
        key,
        question: `${statement}: a quarter more than the motor draws is usual (common practice), and a smaller breaker trips. Are both right?`,
      },
    ];
  const tableA = tableAmpsOfPump(pump) ?? amps;
  const largestA = tableA * MAX_BREAKER_RATIO;
  const maxA = BREAKER_SIZES.find((size) => size >= largestA) ?? largestA;
  if (breakerA <= maxA) return [];
  return [
    {
      key,
      question: `${statement}: 2.5 times the ${formatNumber(tableA, 1)} A ${tableA === amps ? 'that it draws' : 'of the motor tables'}, or the next size made (${formatNumber(maxA, 0)} A), is the usual maximum (NEC 430.52). Is it right? Whether breaker and cable fit is for an electrician to say.`,
    },
  ];
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
  const dates = [
    { key: 'hole.drilled', what: 'The well was drilled', date: drilled },
    ...pumps.map((pump) => ({
      key: `${pathOf(pump)}.installed`,
      what: 'The pump was installed',
      date: pump.installed,
    })),
    { key: 'tank.installed', what: 'The tank was installed', date: description?.tank.installed },
  ];
  return dates.flatMap(({ key, what, date }): Question[] => {
    if (date === undefined) return [];
    if (today !== undefined && isBefore(today, date))
      return [{ key, question: `${what} in ${date}, which is still to come. Is the date right?` }];
    if (drilled !== undefined && isBefore(date, drilled))
      return [{ key, question: `${what} in ${date}, before the well was drilled in ${drilled}. Is it so?` }];
    return [];
  });
}

/** By as much of both dates as is known: 2019 is not before 2019-05. */
function isBefore(a: string, b: string): boolean {
  const known = Math.min(a.length, b.length);
  return a.slice(0, known) < b.slice(0, known);
}
