/**
 * What is kept of a reading is how far it lies from what its neighbours before it let one expect. A noisy but slow quantity is
 * best expected by a smoothed level (the last value alone would count its own noise twice), a ramp by a level with a slope: both
 * are an alpha-beta filter. A block tries several and keeps the best; where none is best all along, they are mixed by how well each
 * did lately. Encoder and decoder run the same arithmetic on the same numbers, so the result is exact (IEEE 754, no Math.exp).
 */
interface Filter {
  /** Share of the last surprise that goes into the level, and into the slope. */
  level: number;
  slope: number;
}

/** Measured on pressure and current at 1 s and 5 s: noise from 0.5 to 30 steps, ramps from 10 to 60 steps a reading. */
const FILTERS: readonly Filter[] = [
  { level: 1, slope: 0 },
  { level: 0.5, slope: 0 },
  { level: 0.25, slope: 0 },
  { level: 0.06, slope: 0 },
  { level: 0.5, slope: 0.1 },
  { level: 0.25, slope: 0.02 },
];

const MIXED: readonly Filter[] = [
  { level: 0.77, slope: 0 },
  { level: 0.25, slope: 0 },
  { level: 0.04, slope: 0 },
  { level: 0.6, slope: 0.2 },
  { level: 0.3, slope: 0.03 },
  { level: 0.15, slope: 0.01 },
];

export const PREDICTORS = FILTERS.length + 1;
const MIX = FILTERS.length;

/** A surprise larger than this many usual ones is a step (a pump starts): the filter begins anew there. */
const JUMP = 8;
/** The usual surprise is a mean over about this many readings. */
const USUAL_SHARE = 1 / 16;

/**
 * Writes into `to` the surprises of the first `n` of `from` (`undo` false), or from surprises the values again (`undo` true).
 * All are whole numbers; the first value is expected to be 0.
 */
export function predict(which: number, from: Float64Array, to: Float64Array, n: number, undo: boolean): void {
  if (which === MIX) mixed(from, to, n, undo);
  else if (which === 0) last(from, to, n, undo);
  else single(FILTERS[which]!, from, to, n, undo);
}

function last(from: Float64Array, to: Float64Array, n: number, undo: boolean): void {
  let before = 0;
  for (let i = 0; i < n; i++) {
    const given = from[i]!;
    to[i] = undo ? given + before : given - before;
    before = undo ? to[i]! : given;
  }
}

function single(filter: Filter, from: Float64Array, to: Float64Array, n: number, undo: boolean): void {
  const { level: a, slope: b } = filter;
  let level = 0;
  let slope = 0;
  let usual = 1;
  for (let i = 0; i < n; i++) {
    const expected = level + slope;
    const whole = Math.floor(expected + 0.5);
    const given = from[i]!;
    const value = undo ? given + whole : given;
    to[i] = undo ? value : value - whole;
    const off = value - expected;
    const size = off < 0 ? -off : off;
    if (size > JUMP * usual + JUMP) {
      level = value;
      slope = 0;
    } else {
      level = expected + a * off;
      slope += b * off;
      usual += (size - usual) * USUAL_SHARE;
    }
  }
}

/** How fast the mix forgets how well a filter did. */
const FORGET = 0.15;

function mixed(from: Float64Array, to: Float64Array, n: number, undo: boolean): void {
  const k = MIXED.length;
  const level = new Float64Array(k);
  const slope = new Float64Array(k);
  const poor = new Float64Array(k).fill(1);
  const expected = new Float64Array(k);
  let usual = 1;
  for (let i = 0; i < n; i++) {
    let weights = 0;
    let sum = 0;
    for (let f = 0; f < k; f++) {
      const guess = level[f]! + slope[f]!;
      expected[f] = guess;
      const weight = 1 / (poor[f]! * poor[f]! * poor[f]!);
      weights += weight;
      sum += weight * guess;
    }
    const blend = sum / weights;
    const whole = Math.floor(blend + 0.5);
    const given = from[i]!;
    const value = undo ? given + whole : given;
    to[i] = undo ? value : value - whole;
    const size = Math.abs(value - blend);
    const limit = JUMP * usual + JUMP;
    if (size <= limit) usual += (size - usual) * USUAL_SHARE;
    for (let f = 0; f < k; f++) {
      const off = value - expected[f]!;
      const far = off < 0 ? -off : off;
      poor[f] = poor[f]! * (1 - FORGET) + Math.min(far, limit) * FORGET + 0.001;
      if (size > limit) {
        level[f] = value;
        slope[f] = 0;
      } else {
        level[f] = expected[f]! + MIXED[f]!.level * off;
        slope[f] = slope[f]! + MIXED[f]!.slope * off;
      }
    }
  }
}
