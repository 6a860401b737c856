/**
 * What the pump delivers as it now is, from its last fills. Each fill gives two readings. The one at the stop (fill + draw after)
 * is right on average whatever is drawn, but rough; the one over the whole run is fine, but low by what was drawn meanwhile. So the
 * rough ones' median says where to look, and the mean of the fine ones near it is the answer. Where no run goes by without a draw,
 * the rough ones alone decide. Rates are per unit of air charge (1/kPa/s): times `airKpaL` they are litres a second.
 */
import type { Fill } from './fill.ts';

const FILLS_KEPT = 24;
const FEWEST_FILLS = 3;
/** How near the rough median a whole run must be to count as one without a draw. */
const NEAR = 0.07;
/** Share of the runs that must be near it. */
const NEAR_SHARE = 0.2;
/** Fall of delivery with pressure before this pump's own is learnt, 1/kPa: a submersible in the middle of its curve. */
const USUAL_FALL_PER_KPA = 0.0006;
const STEEPEST_FALL_PER_KPA = 0.004;
/** The usual fall counts as so many fills. */
const USUAL_COUNTS = 6;
const NANO = 1e9;

/** A fill as kept: rates in 1e-9/kPa/s, whole numbers; 0 where not known. */
export type FillNote = [rate: number, kpa: number, endRate: number, endKpa: number, fallPerKpaMicro: number];

/** Delivery as a straight line in pressure. */
export interface Level {
  rate: number;
  kpa: number;
  fallPerKpa: number;
  /** Highest pressure that the fills reached, kPa gauge: above it the line is not known. */
  upToKpa: number;
  fills: number;
}

export interface Delivery {
  notes: FillNote[];
  level?: Level;
  /** The level as first learnt under this card: what slow changes are measured by. */
  reference?: Level;
}

export const FILLS_FOR_REFERENCE = 12;

export function newDelivery(): Delivery {
  return { notes: [] };
}

export function learnDelivery(delivery: Delivery, fill: Fill): void {
  if (!(fill.rate > 0)) return;
  delivery.notes.push(noteOf(fill));
  if (delivery.notes.length > FILLS_KEPT) delivery.notes.shift();
  const level = levelOf(delivery.notes);
  if (!level) return;
  delivery.level = level;
  if (!delivery.reference && level.fills >= FILLS_FOR_REFERENCE) delivery.reference = level;
}

function noteOf(fill: Fill): FillNote {
  const { half } = fill;
  const apart = half ? half.kpas[1] - half.kpas[0] : 0;
  const fall =
    half && apart > 10 && half.rates[0] > 0
      ? (1 - half.rates[1] / half.rates[0]) / apart
      : USUAL_FALL_PER_KPA;
  return [
    Math.round(fill.rate * NANO),
    Math.round(fill.kpa * 10) / 10,
    Math.round((fill.endRate ?? 0) * NANO),
    Math.round((fill.endKpa ?? 0) * 10) / 10,
    Math.round(fall * 1e6),
  ];
}

function levelOf(notes: readonly FillNote[]): Level | undefined {
  if (notes.length < FEWEST_FILLS) return undefined;
  const kpa = median(notes.map((note) => note[1]));
  const roughFall = fallOf(notes);
  const toMiddle = (rate: number, at: number, fall: number): number =>
    rate / Math.max(0.2, 1 - fall * (at - kpa));
  const rough = median(
    notes.filter((note) => note[2] > 0).map((note) => toMiddle(note[2], note[3], roughFall)),
  );
  const whole = notes.map((note) => toMiddle(note[0], note[1], roughFall));
  const centre = Number.isNaN(rough) ? upper(whole) : rough;
  const near = nearest(whole, centre);
  const fallNotes = notes.filter((_, i) => Math.abs(whole[i]! / centre - 1) < NEAR);
  return {
    rate: near / NANO,
    kpa,
    fallPerKpa: fallOf(fallNotes.length > 3 ? fallNotes : []),
    upToKpa: Math.max(...notes.map((note) => Math.max(note[3], note[1]))),
    fills: notes.length,
  };
}

/** Mean of the whole-run rates about the centre, the centre moved once to where they crowd; the centre itself where few are near. */
function nearest(whole: readonly number[], centre: number): number {
  const about = (at: number): number[] => whole.filter((rate) => Math.abs(rate / at - 1) < NEAR);
  const first = about(centre);
  if (first.length < Math.max(2, NEAR_SHARE * whole.length)) return centre;
  const second = about(median(first));
  return median(second);
}

/** Where nothing was seen after the runs: a rate that a fifth of them exceed. */
function upper(rates: readonly number[]): number {
  const sorted = rates.toSorted((a, b) => a - b);
  return sorted[Math.floor(0.8 * (sorted.length - 1))]!;
}

function fallOf(notes: readonly FillNote[]): number {
  const falls = notes.map((note) => note[4] / 1e6);
  for (let i = 0; i < USUAL_COUNTS; i++) falls.push(USUAL_FALL_PER_KPA);
  return Math.min(STEEPEST_FALL_PER_KPA, Math.max(0, median(falls)));
}

/** Rate of delivery at a gauge pressure. */
export function rateAt(level: Level, kpa: number): number {
  return level.rate * Math.max(0, 1 - level.fallPerKpa * (kpa - level.kpa));
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const middle = sorted.length >> 1;
  if (sorted.length === 0) return Number.NaN;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
