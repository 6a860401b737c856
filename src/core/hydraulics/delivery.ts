/**
 * What the pump delivers as it now is, learnt fill by fill (./delivery-curve.ts says how). Rates
 * are per unit of air charge (1/kPa/s): times `airKpaL` they are litres a second. While fills are
 * few the level only rises, since no draw makes a fill steeper; later it moves slowly, since a day
 * of guests makes most fills look weaker.
 */
import type { Fill } from './fill.ts';
import {
  MIN_CLUSTER_FILLS,
  MICRO,
  NANO,
  allFallShort,
  deliveryCurveOf,
  rateAt,
  type FillRecord,
  type DeliveryCurve,
} from './delivery-curve.ts';

/**
 * A day or two of a house: more would hold back what changes, fewer have no fill without a draw
 * (argued, not measured).
 */
const MAX_RECENT_FILLS = 20;
/**
 * With each fill the level moves by these shares at most: down by a fifth within eight fills; up
 * faster, for air can go in an hour.
 */
const MAX_FALL_PER_FILL = 0.03;
const MAX_RISE_PER_FILL = 0.15;
/**
 * So many fills in a row that all fall short of the level are of a pump that lifts less, and the
 * fills before them say nothing of it any more. Half of a house's fills have no draw in them
 * (argued, not measured): six with one by chance are one in sixty.
 */
const SHORT_FILLS = 6;
/** Share of the delivery that makes a draw heavy. */
const HEAVY_DRAW_FRACTION = 0.4;
/**
 * A fill under this share of the known delivery is of a pump that lifts far less (argued, not
 * measured).
 */
const FAR_UNDER_FRACTION = 0.65;
const MIN_CALM_FILLS = 8;
const MAX_SKIPPED_FILLS = 30;

export interface DeliveryEstimate {
  recentFills: FillRecord[];
  /** Fills seen under this card, and those passed over since the last calm one. */
  fillCount: number;
  skippedFills: number;
  curve?: DeliveryCurve;
  /** The level rests on enough fills, though they may be forgotten since. */
  established?: true;
  /** The level as first learnt under this card: what slow changes are measured by. */
  reference?: DeliveryCurve;
}

/** The reference is the mean level of these fills. */
const REFERENCE_FROM = 12;
const REFERENCE_TO = 36;

export function newDeliveryEstimate(): DeliveryEstimate {
  return { recentFills: [], fillCount: 0, skippedFills: 0 };
}

/** Learns from one fill. `amps`: the run's current, where it is known. */
export function learnDelivery(delivery: DeliveryEstimate, fill: Fill, amps?: number): void {
  if (!(fill.rate > 0) || shouldSkipFill(delivery, fill)) return;
  delivery.recentFills.push(fillRecordOf(fill, amps));
  delivery.fillCount++;
  if (delivery.recentFills.length > MAX_RECENT_FILLS) delivery.recentFills.shift();
  forgetFormerLevel(delivery);
  delivery.curve = nextCurve(delivery);
  if (delivery.recentFills.length >= MIN_CLUSTER_FILLS) delivery.established = true;
  if (delivery.fillCount >= REFERENCE_FROM && delivery.fillCount <= REFERENCE_TO)
    updateReference(delivery, delivery.curve);
}

function nextCurve({ recentFills, curve: previous }: DeliveryEstimate): DeliveryCurve {
  const level = deliveryCurveOf(recentFills);
  if (!previous) return level;
  const before = rateAt(previous, level.kpa);
  if (recentFills.length < MIN_CLUSTER_FILLS) return { ...level, rate: Math.max(level.rate, before) };
  const rate = Math.min(
    before * (1 + MAX_RISE_PER_FILL),
    Math.max(before * (1 - MAX_FALL_PER_FILL), level.rate),
  );
  return { ...level, rate };
}

/** The next level is that of the last fills alone, however far it lies under the one before. */
function forgetFormerLevel(delivery: DeliveryEstimate): void {
  const last = delivery.recentFills.slice(-SHORT_FILLS);
  const { curve, recentFills } = delivery;
  if (!curve || recentFills.length < MIN_CLUSTER_FILLS || !allFallShort(last, curve)) return;
  delivery.recentFills = last;
  delete delivery.curve;
}

/**
 * A fill under a heavy draw is mostly the draw: once enough calm ones are known, a day of
 * irrigation is passed over. But not for ever: where every fill is like that, they are all there
 * is. Heavy is measured by the fill itself; by the delivery as known where the fill is far under
 * it, since a small draw looks heavy beside the fill of a pump that has lost half of its delivery.
 */
function shouldSkipFill(delivery: DeliveryEstimate, fill: Fill): boolean {
  const own = fill.lateRate ?? fill.rate;
  const known = delivery.curve ? rateAt(delivery.curve, fill.kpa) : own;
  const rate = own < FAR_UNDER_FRACTION * known ? known : own;
  const heavy = Math.max(fill.drawBefore ?? 0, fill.drawAfter ?? 0) > HEAVY_DRAW_FRACTION * rate;
  if (!heavy || delivery.recentFills.length < MIN_CALM_FILLS || delivery.skippedFills >= MAX_SKIPPED_FILLS) {
    if (!heavy) delivery.skippedFills = 0;
    return false;
  }
  delivery.skippedFills++;
  return true;
}

/**
 * Fills were read with a time constant of the air that has proved wrong: the next ones decide, from
 * the level as it was.
 */
export function discardFills(delivery: DeliveryEstimate): void {
  delivery.recentFills = [];
  if (delivery.fillCount <= REFERENCE_TO) {
    delivery.fillCount = 0;
    delete delivery.reference;
  }
}

function updateReference(delivery: DeliveryEstimate, curve: DeliveryCurve): void {
  const { reference } = delivery;
  if (!reference) delivery.reference = { ...curve };
  else
    reference.rate +=
      (rateAt(curve, reference.kpa) - reference.rate) / (delivery.fillCount - REFERENCE_FROM + 1);
}

function fillRecordOf(fill: Fill, amps = 0): FillRecord {
  return [
    Math.round(fill.rate * NANO),
    Math.round(fill.kpa),
    Math.round((fill.lateRate ?? 0) * NANO),
    Math.round(fill.lateKpa),
    Number.isNaN(fill.slowingPerKpa) ? null : Math.round(fill.slowingPerKpa * MICRO),
    Math.round(amps * 100) / 100,
    Math.round(fill.steadyDraw * NANO),
    Math.round(1000 * Math.min(1, fill.rateError / fill.rate)) || 0,
  ];
}
