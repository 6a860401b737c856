/**
 * What the pump delivers as it now is, from its last fills. Each fill gives two readings. Its second half with the draw after it is
 * right on average whatever is drawn, but rough; the rate of the whole run is fine, but low by what was drawn meanwhile. So the
 * rough ones' median says where to look, and the fine ones that crowd there are the answer. Where no run goes by without a draw,
 * the rough ones alone decide. Rates are per unit of air charge (1/kPa/s): times `airKpaL` they are litres a second.
 */
import type { Fill } from './fill.ts';
import { median } from './median.ts';

const FILLS_KEPT = 20;
const FEWEST_FILLS = 3;
/** How near the rough median a whole run must be to count as one without a draw. */
const NEAR = 0.06;
/** Share of the runs that must be near it. */
const NEAR_SHARE = 0.2;
/** The fills that tell how delivery falls with pressure: within this of the steepest but a few. */
const STEEPEST = 0.96;
/** Fall of delivery with pressure before this pump's own is learnt, 1/kPa: a submersible in the middle of its curve. */
export const USUAL_FALL_PER_KPA = 0.001;
const STEEPEST_FALL_PER_KPA = 0.005;
/** The usual fall counts as so many fills. */
const USUAL_COUNTS = 2;
/** Share of the delivery that makes a draw heavy. */
const HEAVY = 0.4;
const CALM_FILLS = 8;
const PASSED_OVER_MOST = 30;
const NANO = 1e9;
const MICRO = 1e6;

/** A fill as kept: rates in 1e-9/kPa/s, whole numbers, 0 where not known (amps too); slowing in 1e-6/kPa. */
export type FillNote = [
  rate: number,
  kpa: number,
  lateRate: number,
  lateKpa: number,
  slowsMicro: number | null,
  amps: number,
];

/** Delivery as a straight line in pressure. */
export interface Level {
  rate: number;
  kpa: number;
  fallPerKpa: number;
  /** Highest pressure that the fills reached, kPa gauge: above it the line is not known. */
  upToKpa: number;
  /** Running current of these fills, where it was given. */
  amps?: number;
}

export interface Delivery {
  notes: FillNote[];
  /** Fills seen under this card, and those passed over since the last calm one. */
  fills: number;
  passedOver: number;
  level?: Level;
  /** The level as first learnt under this card: what slow changes are measured by. */
  reference?: Level;
}

/** The reference is the mean level of these fills. */
const REFERENCE_FROM = 12;
const REFERENCE_TO = 36;

export function newDelivery(): Delivery {
  return { notes: [], fills: 0, passedOver: 0 };
}

/** Learns from one fill. `amps`: the run's current, where it is known. */
export function learnDelivery(delivery: Delivery, fill: Fill, amps?: number): void {
  if (!(fill.rate > 0) || passesOver(delivery, fill)) return;
  delivery.notes.push(noteOf(fill, amps));
  delivery.fills++;
  if (delivery.notes.length > FILLS_KEPT) delivery.notes.shift();
  if (delivery.notes.length < FEWEST_FILLS) return;
  const level = levelOf(delivery.notes);
  delivery.level = level;
  if (delivery.fills >= REFERENCE_FROM && delivery.fills <= REFERENCE_TO) refer(delivery, level);
}

/**
 * A fill under a heavy draw is mostly the draw: once enough calm ones are known, a day of irrigation is passed over. But not for
 * ever: where every fill is like that, they are all there is.
 */
function passesOver(delivery: Delivery, fill: Fill): boolean {
  const heavy = Math.max(fill.drawBefore ?? 0, fill.drawAfter ?? 0) > HEAVY * (fill.lateRate ?? fill.rate);
  if (!heavy || delivery.notes.length < CALM_FILLS || delivery.passedOver >= PASSED_OVER_MOST) {
    if (!heavy) delivery.passedOver = 0;
    return false;
  }
  delivery.passedOver++;
  return true;
}

/** Fills were read with a time constant of the air that has proved wrong: the next ones decide. */
export function forgetFills(delivery: Delivery): void {
  delivery.notes = [];
  if (delivery.fills <= REFERENCE_TO) {
    delivery.fills = 0;
    delete delivery.reference;
  }
}

function refer(delivery: Delivery, level: Level): void {
  const { reference } = delivery;
  if (!reference) delivery.reference = { ...level };
  else
    reference.rate += (rateAt(level, reference.kpa) - reference.rate) / (delivery.fills - REFERENCE_FROM + 1);
}

function noteOf(fill: Fill, amps = 0): FillNote {
  return [
    Math.round(fill.rate * NANO),
    Math.round(fill.kpa),
    Math.round((fill.lateRate ?? 0) * NANO),
    Math.round(fill.lateKpa),
    Number.isNaN(fill.slowsPerKpa) ? null : Math.round(fill.slowsPerKpa * MICRO),
    Math.round(amps * 100) / 100,
  ];
}

function levelOf(notes: readonly FillNote[]): Level {
  const kpa = median(notes.map((note) => note[1]));
  const fallPerKpa = fallOf(notes);
  const atMiddle = (rate: number, at: number): number => rate / Math.max(0.2, 1 - fallPerKpa * (at - kpa));
  const late = notes.filter((note) => note[2] > 0).map((note) => atMiddle(note[2], note[3]));
  const whole = notes.map((note) => atMiddle(note[0], note[1]));
  const amps = median(notes.filter((note) => note[5] > 0).map((note) => note[5]));
  const rough = late.length >= FEWEST_FILLS ? median(late) : upper(whole);
  return {
    rate: crowdNear(whole, rough) / NANO,
    kpa,
    fallPerKpa,
    upToKpa: Math.max(...notes.map((note) => 2 * note[3] - note[1])),
    ...(!Number.isNaN(amps) && { amps }),
  };
}

/** Middle of the whole-run rates near the centre, moved once to where they crowd; the centre itself where few are near. */
function crowdNear(whole: readonly number[], centre: number): number {
  const about = (at: number): number[] => whole.filter((rate) => Math.abs(rate / at - 1) < NEAR);
  const first = about(centre);
  if (first.length < Math.max(2, NEAR_SHARE * whole.length)) return centre;
  return median(about(median(first)));
}

/** The rate that a tenth of the fills exceed: about one without a draw. */
function upper(rates: readonly number[]): number {
  const sorted = rates.toSorted((a, b) => a - b);
  return sorted[Math.floor(0.9 * (sorted.length - 1))]!;
}

/** How delivery falls with pressure, from the fills that were steepest as a whole: nothing was drawn in those. */
function fallOf(notes: readonly FillNote[]): number {
  const steep = upper(notes.map((note) => note[0])) * STEEPEST;
  const falls = notes.filter((note) => note[0] >= steep && note[4] !== null).map((note) => note[4]! / MICRO);
  for (let i = 0; i < USUAL_COUNTS; i++) falls.push(USUAL_FALL_PER_KPA);
  return Math.min(STEEPEST_FALL_PER_KPA, Math.max(0, median(falls)));
}

/** Rate of delivery at a gauge pressure. */
export function rateAt(level: Level, kpa: number): number {
  return level.rate * Math.max(0, 1 - level.fallPerKpa * (kpa - level.kpa));
}
