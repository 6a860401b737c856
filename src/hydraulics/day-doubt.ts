/**
 * What makes a day's total untrue though pressure was heard: runs of which no water is known, and fills that no run accounts for,
 * as where the clamp slipped off the wire. Both hide water that was drawn, so beyond a small share of the day nothing is said.
 */
export interface DayDoubt {
  /** Time of all runs that ended this day, and of those whose water is not known, s. */
  ranS: number;
  unknownS: number;
  /** Water that the tank took while no pump was known to run, L. */
  filledL: number;
  /** Most room that the tank's air had at rest of late, 1/kPa; -1 where no rest is followed. */
  topRoom: number;
  /** What the air's room was beyond the tank's own when the day began, L. */
  beyondL: number;
}

/** What a total misses by is told from the pump's time, and may be as much as a good day's total errs by anyway. */
const MOST_SHARE = 0.05;
/**
 * A rise at rest is a fill from this share of the absolute pressure on, 30 kPa at 50 psi: a fill is three or four times as much, and
 * what the reckoned warmth of the air is wrong by, or a tap that closes, is less.
 */
const RISE_SHARE = 0.06;
const RISE_NOISES = 8;
/** The top comes down to the present over this time: a pump fills within it, the room's warmth of the day does not. */
const TOP_FADES_MS = 600_000;
/** From midnight to midnight the tank's own air may be 15 K warmer, a twentieth of its room. */
const WARMTH_SHARE = 0.05;

export function newDoubt(): DayDoubt {
  return { ranS: 0, unknownS: 0, filledL: 0, topRoom: -1, beyondL: 0 };
}

/** A run is over. */
export function doubtRun(doubt: DayDoubt, ranS: number, isKnown: boolean): void {
  doubt.ranS += ranS;
  if (!isKnown) doubt.unknownS += ranS;
}

/** A run begins, or what went before is not known: rises are no longer measured from there. */
export function breakRest(doubt: DayDoubt): void {
  doubt.topRoom = -1;
}

export interface RestStep {
  stepMs: number;
  /** Room of the air now and at the reading before, 1/kPa. */
  room: number;
  lastRoom: number;
  /** Noise of one reading as a share of its absolute pressure. */
  noiseShare: number;
  airKpaL: number;
}

/** A reading at rest. Only what two readings say together is believed: one alone may be a spike. */
export function doubtRest(doubt: DayDoubt, step: RestStep): void {
  const { room, lastRoom } = step;
  if (doubt.topRoom < 0) {
    doubt.topRoom = room;
    return;
  }
  const least = Math.min(room, lastRoom);
  const most = Math.max(room, lastRoom);
  const faded = doubt.topRoom + (room - doubt.topRoom) * Math.min(1, step.stepMs / TOP_FADES_MS);
  // Before it fades: by exception one step may hold much of a fill.
  const taken = doubt.topRoom - most;
  if (taken > doubt.topRoom * Math.max(RISE_SHARE, RISE_NOISES * step.noiseShare)) {
    doubt.filledL += taken * step.airKpaL;
    doubt.topRoom = most;
  } else doubt.topRoom = Math.max(faded, least);
}

/** The tank when a day ends: all of it, and what room its air seems to have, L. */
export interface DayEnd {
  volumeL: number;
  airL: number;
}

/** Why the day's total can't be said, or undefined where it can. */
export function whyNoTotal(doubt: DayDoubt, usedL: number, tank: DayEnd): string | undefined {
  if (doubt.unknownS > doubt.ranS * MOST_SHARE) return 'water of runs not known';
  // What was filled unseen was booked as water that came back: without it at least so much was drawn.
  const leastUsedL = Math.max(0, usedL + doubt.filledL);
  if (doubt.filledL > leastUsedL * MOST_SHARE) return 'filled unseen';
  if (Math.abs(beyondL(tank) - doubt.beyondL) > leastUsedL * MOST_SHARE) return 'the tank was empty';
  if (usedL < -tank.airL * WARMTH_SHARE) return 'more came than went';
  return undefined;
}

/** Air that has no room in the tank: it is empty, and what pressure falls by is no water any more. */
function beyondL({ airL, volumeL }: DayEnd): number {
  return Math.max(0, airL - volumeL);
}

/** The next day; a rest goes on over midnight. */
export function endDoubtDay(doubt: DayDoubt, tank: DayEnd): void {
  Object.assign(doubt, { ...newDoubt(), topRoom: doubt.topRoom, beyondL: beyondL(tank) });
}
