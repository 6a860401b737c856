/**
 * The pump's delivery out of its last fills. A draw during a run can't be seen and only ever makes
 * the fill look slower, so the fills without one are the steepest, and they agree: the level is the
 * highest rate at which fills crowd. What was drawn both before and after a run is added to it, but
 * a fill that needs much of that counts little, for the draw need not have gone on in between. The
 * second half of a run with the draw after it is right on average, or low, and rough: it says how
 * high is too high, and how low too low.
 */
import { median } from 'simple-statistics';

/**
 * A fill as kept: rates in 1e-9/kPa/s, whole numbers, 0 where not known (amps too); slowing in
 * 1e-6/kPa.
 */
export type FillRecord = [
  rate: number,
  kpa: number,
  lateRate: number,
  lateKpa: number,
  slowsMicro: number | null,
  amps: number,
  /** What of the rate is a draw seen before and after. */
  steady: number,
  /** Standard error of the rate, as a share of it in thousandths. */
  errorMilli: number,
];

export const NANO = 1e9;
export const MICRO = 1e6;

/** Delivery as a straight line in pressure. */
export interface DeliveryCurve {
  rate: number;
  kpa: number;
  fallPerKpa: number;
  /** Highest pressure that the fills reached, kPa gauge: above it the line is not known. */
  maxKpa: number;
  /** Running current of these fills, where it was given. */
  amps?: number;
}

/**
 * With fewer fills than this there is no crowd yet: the steepest of them is nearest to a run
 * without a draw.
 */
export const MIN_CLUSTER_FILLS = 8;
/**
 * Fills this near each other agree, or two and a half times their own standard error where readings
 * are rough.
 */
const CLUSTER_WIDTH = 0.03;
const CLUSTER_WIDTH_ERRORS = 2.5;
/** A crowd has half the weight of the largest at least. */
const MIN_CLUSTER_RATIO = 0.5;
/** A share of draw at which a fill counts half. */
const STEADY_HALF_WEIGHT = 0.05;
/** An older fill counts this much of the next: a pump that weakens is followed. */
const FILL_DECAY = 0.97;
/** Among few, one that counts this much is not a guess. */
const MIN_WEIGHT_ALONE = 0.2;
/**
 * A rate this far over the rough middle is no delivery, and one this far under it is a leak or a
 * trickle that was not seen.
 */
const MAX_RATE_RATIO = 1.2;
const MIN_RATE_RATIO = 0.96;
const MIN_LATE_FILLS = 3;
/** The fills that tell how delivery falls with pressure: within this of the steepest but a few. */
const STEEPEST_RATIO = 0.96;
/**
 * Fall of delivery with pressure before this pump's own is learnt, 1/kPa: a submersible in the
 * middle of its curve.
 */
export const DEFAULT_FALL_PER_KPA = 0.001;
const MAX_FALL_PER_KPA = 0.005;
/** The usual fall counts as so many fills. */
const DEFAULT_FALL_WEIGHT = 2;

interface WeightedFill {
  rate: number;
  weight: number;
}

/** A fill under this share of the level had a draw in it, or the pump lifts less. */
const SHORT_RATIO = 0.92;

/**
 * Do all of these fills fall short of the level? By their whole rates, and by the middle of their
 * late ones, to which the draw after the stop is added: a draw that goes on makes the first low and
 * not the second.
 */
export function allFallShort(fills: readonly FillRecord[], curve: DeliveryCurve): boolean {
  const late = fills.filter((note) => note[2] > 0);
  const ofLevel = (rate: number, kpa: number): number => rate / NANO / Math.max(1e-12, rateAt(curve, kpa));
  return (
    late.length >= MIN_LATE_FILLS &&
    fills.every((note) => ofLevel(note[0], note[1]) < SHORT_RATIO) &&
    median(late.map((note) => ofLevel(note[2], note[3]))) < SHORT_RATIO
  );
}

/** The level of at least one fill. */
export function deliveryCurveOf(fills: readonly FillRecord[]): DeliveryCurve {
  const kpa = median(fills.map((note) => note[1]));
  const fallPerKpa = fallPerKpaOf(fills);
  const atMiddle = (rate: number, at: number): number => rate / Math.max(0.2, 1 - fallPerKpa * (at - kpa));
  const late = fills.filter((note) => note[2] > 0).map((note) => atMiddle(note[2], note[3]));
  const whole = fills.map((note, i) => ({
    rate: atMiddle(note[0], note[1]),
    weight:
      FILL_DECAY ** (fills.length - 1 - i) / (1 + (note[6] / Math.max(1, note[0]) / STEADY_HALF_WEIGHT) ** 2),
  }));
  const amps = fills.map((note) => note[5]).filter((known) => known > 0);
  const rough = late.length >= MIN_LATE_FILLS ? median(late) : upperDecile(whole.map(({ rate }) => rate));
  const clusterWidth = Math.max(
    CLUSTER_WIDTH,
    (CLUSTER_WIDTH_ERRORS * median(fills.map((note) => note[7]))) / 1000,
  );
  const possible = whole
    .filter(({ rate }) => rate < rough * MAX_RATE_RATIO)
    .toSorted((a, b) => b.rate - a.rate);
  return {
    rate:
      (fills.length < MIN_CLUSTER_FILLS
        ? steepestRate(possible, { agree: clusterWidth, rough })
        : highestClusterRate(possible, { agree: clusterWidth, rough })) / NANO,
    kpa,
    fallPerKpa,
    maxKpa: Math.max(...fills.map((note) => 2 * note[3] - note[1])),
    ...(amps.length > 0 && { amps: median(amps) }),
  };
}

/**
 * Of few fills, steepest first: those that agree with the steepest one that is no guess; the rough
 * middle where none is possible.
 */
function steepestRate(
  fills: readonly WeightedFill[],
  { agree, rough }: { agree: number; rough: number },
): number {
  const clear = fills.filter(({ weight }) => weight > MIN_WEIGHT_ALONE);
  return clustersOf(clear.length > 0 ? clear : fills, agree)[0]?.rate ?? rough;
}

/**
 * The first of the crowds from above, followed down to where it is thickest; the rough middle where
 * none is high enough.
 */
function highestClusterRate(fills: readonly WeightedFill[], at: { agree: number; rough: number }): number {
  const all = clustersOf(fills, at.agree).filter(({ rate, n }) => n > 1 && rate > at.rough * MIN_RATE_RATIO);
  if (all.length === 0) return at.rough;
  const maxWeight = Math.max(...all.map(({ weight }) => weight));
  let place = all.findIndex(({ weight }) => weight >= MIN_CLUSTER_RATIO * maxWeight);
  while (place + 1 < all.length && all[place + 1]!.weight > all[place]!.weight) place++;
  return all[place]!.rate;
}

/**
 * Of each fill, steepest first: those that agree with it from below, their weight and their weighed
 * mean.
 */
function clustersOf(fills: readonly WeightedFill[], agree: number): (WeightedFill & { n: number })[] {
  return fills.map((top, from) => {
    const near = fills.slice(from).filter(({ rate }) => rate >= top.rate * (1 - agree));
    const weight = near.reduce((sum, fill) => sum + fill.weight, 0);
    const rate = near.reduce((sum, fill) => sum + fill.weight * fill.rate, 0) / weight;
    return { rate, weight, n: near.length };
  });
}

/** The rate that a tenth of the fills exceed: about one without a draw. */
function upperDecile(rates: readonly number[]): number {
  const sorted = rates.toSorted((a, b) => a - b);
  return sorted[Math.floor(0.9 * (sorted.length - 1))]!;
}

/**
 * How delivery falls with pressure, from the fills that were steepest as a whole: nothing was drawn
 * in those.
 */
function fallPerKpaOf(fills: readonly FillRecord[]): number {
  const steep = upperDecile(fills.map((note) => note[0])) * STEEPEST_RATIO;
  const falls = fills.filter((note) => note[0] >= steep && note[4] !== null).map((note) => note[4]! / MICRO);
  for (let i = 0; i < DEFAULT_FALL_WEIGHT; i++) falls.push(DEFAULT_FALL_PER_KPA);
  return Math.min(MAX_FALL_PER_KPA, Math.max(0, median(falls)));
}

/** Rate of delivery at a gauge pressure. */
export function rateAt(curve: DeliveryCurve, kpa: number): number {
  return curve.rate * Math.max(0, 1 - curve.fallPerKpa * (kpa - curve.kpa));
}
