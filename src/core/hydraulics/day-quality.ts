/**
 * What makes a day's total untrue though pressure was heard: runs of which no water is known, and
 * fills that no run accounts for, as where the clamp slipped off the wire. Both hide water that was
 * drawn, so beyond a small share of the day nothing is said.
 */
export interface DayQuality {
  /** Time of all runs that ended this day, and of those whose water is not known, s. */
  ranS: number;
  unknownRanS: number;
  /** Water that the tank took while no pump was known to run, L. */
  unseenFillL: number;
  /** Most room that the tank's air had at rest of late, 1/kPa; -1 where no rest is followed. */
  maxAirVolume: number;
  /** What the air's room was beyond the tank's own when the day began, L. */
  excessAirL: number;
}

/**
 * What a total misses by is told from the pump's time, and may be as much as a good day's total
 * errs by anyway.
 */
const MAX_UNKNOWN_FRACTION = 0.05;
/**
 * A rise at rest is a fill from this share of the absolute pressure on, 30 kPa at 50 psi: a fill is
 * three or four times as much, and what the reckoned warmth of the air is wrong by, or a tap that
 * closes, is less.
 */
const FILL_RISE_FRACTION = 0.06;
const FILL_RISE_NOISES = 8;
/**
 * The top comes down to the present over this time: a pump fills within it, the room's warmth of
 * the day does not.
 */
const MAX_VOLUME_DECAY_MS = 600_000;
/** From midnight to midnight the tank's own air may be 15 K warmer, a twentieth of its room. */
const THERMAL_FRACTION = 0.05;

export function newDayQuality(): DayQuality {
  return { ranS: 0, unknownRanS: 0, unseenFillL: 0, maxAirVolume: -1, excessAirL: 0 };
}

/** A run is over. */
export function recordRunQuality(quality: DayQuality, ranS: number, isKnown: boolean): void {
  quality.ranS += ranS;
  if (!isKnown) quality.unknownRanS += ranS;
}

/** A run begins, or what went before is not known: rises are no longer measured from there. */
export function resetRest(quality: DayQuality): void {
  quality.maxAirVolume = -1;
}

export interface RestStep {
  stepMs: number;
  /** Room of the air now and at the reading before, 1/kPa. */
  airVolume: number;
  lastAirVolume: number;
  /** Noise of one reading as a share of its absolute pressure. */
  noiseRatio: number;
  airKpaL: number;
}

/** A reading at rest. Only what two readings say together is believed: one alone may be a spike. */
export function recordRestQuality(quality: DayQuality, step: RestStep): void {
  const { airVolume, lastAirVolume } = step;
  if (quality.maxAirVolume < 0) {
    quality.maxAirVolume = airVolume;
    return;
  }
  const minVolume = Math.min(airVolume, lastAirVolume);
  const maxVolume = Math.max(airVolume, lastAirVolume);
  const decayed =
    quality.maxAirVolume +
    (airVolume - quality.maxAirVolume) * Math.min(1, step.stepMs / MAX_VOLUME_DECAY_MS);
  // Before it fades: by exception one step may hold much of a fill.
  const displaced = quality.maxAirVolume - maxVolume;
  if (displaced > quality.maxAirVolume * Math.max(FILL_RISE_FRACTION, FILL_RISE_NOISES * step.noiseRatio)) {
    quality.unseenFillL += displaced * step.airKpaL;
    quality.maxAirVolume = maxVolume;
  } else quality.maxAirVolume = Math.max(decayed, minVolume);
}

/** The tank when a day ends: all of it, and what room its air seems to have, L. */
export interface TankAtDayEnd {
  volumeL: number;
  airL: number;
}

type MissingTotal = 'run-water-unknown' | 'filled-unseen' | 'tank-was-empty' | 'more-came-than-went';

/** Why the day's total can't be said, or undefined where it can. */
export function missingTotalReason(
  quality: DayQuality,
  usedL: number,
  tank: TankAtDayEnd,
): MissingTotal | undefined {
  if (quality.unknownRanS > quality.ranS * MAX_UNKNOWN_FRACTION) return 'run-water-unknown';
  // What was filled unseen was booked as water that came back: without it at least so much was
  // drawn.
  const minUsedL = Math.max(0, usedL + quality.unseenFillL);
  if (quality.unseenFillL > minUsedL * MAX_UNKNOWN_FRACTION) return 'filled-unseen';
  if (Math.abs(excessAirL(tank) - quality.excessAirL) > minUsedL * MAX_UNKNOWN_FRACTION)
    return 'tank-was-empty';
  if (usedL < -tank.airL * THERMAL_FRACTION) return 'more-came-than-went';
  return undefined;
}

/**
 * Air that has no room in the tank: it is empty, and what pressure falls by is no water any more.
 */
function excessAirL({ airL, volumeL }: TankAtDayEnd): number {
  return Math.max(0, airL - volumeL);
}

/** The next day; a rest goes on over midnight. */
export function resetDayQuality(quality: DayQuality, tank: TankAtDayEnd): void {
  Object.assign(quality, {
    ...newDayQuality(),
    maxAirVolume: quality.maxAirVolume,
    excessAirL: excessAirL(tank),
  });
}
