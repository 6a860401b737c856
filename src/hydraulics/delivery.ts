/**
 * What the pump delivers as it now is, learnt fill by fill (./level.ts says how). Rates are per unit of air charge (1/kPa/s): times
 * `airKpaL` they are litres a second. While fills are few the level only rises, since no draw makes a fill steeper; later it moves slowly,
 * since a day of guests makes most fills look weaker.
 */
import type { Fill } from './fill.ts';
import { FEW_FILLS, MICRO, NANO, levelOf, rateAt, type FillNote, type Level } from './level.ts';

const FILLS_KEPT = 20;
/** With each fill the level moves by these shares at most: down by a fifth within eight fills; up faster, for air can go in an hour. */
const FALLS_MOST = 0.03;
const RISES_MOST = 0.15;
/** Share of the delivery that makes a draw heavy. */
const HEAVY = 0.4;
const CALM_FILLS = 8;
const PASSED_OVER_MOST = 30;

export interface Delivery {
  notes: FillNote[];
  /** Fills seen under this card, and those passed over since the last calm one. */
  fills: number;
  passedOver: number;
  level?: Level;
  /** The level rests on enough fills, though they may be forgotten since. */
  seasoned?: true;
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
  delivery.level = nextLevel(delivery);
  if (delivery.notes.length >= FEW_FILLS) delivery.seasoned = true;
  if (delivery.fills >= REFERENCE_FROM && delivery.fills <= REFERENCE_TO) refer(delivery, delivery.level);
}

function nextLevel({ notes, level: was }: Delivery): Level {
  const level = levelOf(notes);
  if (!was) return level;
  const before = rateAt(was, level.kpa);
  if (notes.length < FEW_FILLS) return { ...level, rate: Math.max(level.rate, before) };
  const rate = Math.min(before * (1 + RISES_MOST), Math.max(before * (1 - FALLS_MOST), level.rate));
  return { ...level, rate };
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

/** Fills were read with a time constant of the air that has proved wrong: the next ones decide, from the level as it was. */
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
    Math.round(fill.steady * NANO),
    Math.round(1000 * Math.min(1, fill.rateError / fill.rate)) || 0,
  ];
}
