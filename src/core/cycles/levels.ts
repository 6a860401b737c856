/**
 * The two levels of a pump's current, at rest and running, found from the data: no threshold is set
 * by hand. The card's maximum amps, where there is one, and the smallest pump motors made, where
 * there is none, only give the place to begin.
 */
import { upperMedian } from './upper-median.ts';

export interface Levels {
  /** Current at rest (clamp offset), A, as a slow mean of resting readings. */
  idle: number;
  /** Mean distance of resting readings from `idle`, A. */
  noise: number;
  restReadings: number;
  /** Medians of the last runs, A, newest last; at most RUNS. */
  runs: number[];
  running?: number | undefined;
  /** Where running begins while nothing is known, A. */
  startGuess: number;
  /**
   * Highest level that held for two readings while no run was found, A: a pump smaller than the
   * guess.
   */
  highest: number;
  on: number;
  off: number;
  /** A drive sets its speed. */
  hasDrive?: boolean;
}

const MAX_RUNS = 9;
/**
 * Smallest submersible motors draw about 3 A at 230 V, small boosters under 2 A (common practice,
 * no source).
 */
const GUESS_WITHOUT_CARD_A = 1;
/**
 * A motor without any load still draws a third of its usual current and more (common practice, no
 * source). What is less is something else on the conductor, a heat tape or a lamp: it must neither
 * begin a run nor keep one going.
 */
const RATIO_OF_MAX = 0.28;
const ON_RATIO = 0.3;
const OFF_RATIO = 0.27;
/**
 * Power goes with the cube of speed: a drive at its least speed draws an eighth of what it does at
 * full speed and some for itself, so its levels lie lower. Its electronics draw a few tenths of an
 * ampere at rest; that is learnt as `idle`, over which these stand.
 */
const ON_RATIO_DRIVE = 0.08;
const MIN_ON_DRIVE_A = 0.25;
const RATIO_OF_MAX_DRIVE = 0.12;
const MIN_GUESS_DRIVE_A = 0.6;
/** The clamp's own noise must not start a run: so many times the mean distance from idle. */
export const NOISE_TIMES = 12;
/** The slow mean forgets over this many readings. */
const IDLE_MEMORY = 2000;

/**
 * `hasDrive`: a drive sets the pump's speed, so that its least running current is a small share of
 * its usual one.
 */
export function newLevels(maxAmps: number | undefined, hasDrive = false): Levels {
  const startGuess = hasDrive ? guessDriveStartAmps(maxAmps) : guessStartAmps(maxAmps);
  const levels: Levels = {
    idle: 0,
    noise: 0,
    restReadings: 0,
    runs: [],
    running: undefined,
    startGuess,
    highest: 0,
    on: 0,
    off: 0,
    ...(hasDrive && { hasDrive }),
  };
  updateThresholds(levels);
  return levels;
}

function guessStartAmps(maxAmps: number | undefined): number {
  return maxAmps === undefined ? GUESS_WITHOUT_CARD_A : Math.max(0.3, RATIO_OF_MAX * maxAmps);
}

function guessDriveStartAmps(maxAmps: number | undefined): number {
  return Math.max(MIN_GUESS_DRIVE_A, RATIO_OF_MAX_DRIVE * (maxAmps ?? 0));
}

function updateThresholds(levels: Levels): void {
  const span = levels.running === undefined ? undefined : levels.running - levels.idle;
  const floor = levels.idle + NOISE_TIMES * levels.noise;
  if (span !== undefined && span > 0) {
    const own = levels.hasDrive ? Math.max(MIN_ON_DRIVE_A, ON_RATIO_DRIVE * span) : ON_RATIO * span;
    levels.on = Math.max(levels.idle + own, Math.min(floor, levels.idle + 0.5 * span));
    levels.off = levels.idle + (levels.on - levels.idle) * (OFF_RATIO / ON_RATIO);
  } else {
    levels.on = Math.max(levels.idle + levels.startGuess, floor);
    levels.off = levels.idle + 0.7 * (levels.on - levels.idle);
  }
}

/** Learns from a reading taken while the pump surely rests. */
export function learnIdle(levels: Levels, amps: number): void {
  const count = ++levels.restReadings;
  const weight = 1 / Math.min(count, IDLE_MEMORY);
  levels.idle += (amps - levels.idle) * weight;
  levels.noise += (Math.abs(amps - levels.idle) - levels.noise) * weight;
  if (amps > levels.highest) levels.highest = amps;
  if ((count & 63) === 0 || count < 4) updateThresholds(levels);
}

/** Learns from a finished run's median amps. */
export function learnRunning(levels: Levels, amps: number): void {
  levels.runs.push(amps);
  if (levels.runs.length > MAX_RUNS) levels.runs.shift();
  levels.running = upperMedian(levels.runs);
  updateThresholds(levels);
}

/**
 * A card with other motor amps or another control, or a repair: begin again from the guess, keeping
 * what is known of the clamp at rest.
 */
export function resetLevels(levels: Levels, maxAmps: number | undefined, hasDrive = false): void {
  const fresh = newLevels(maxAmps, hasDrive);
  if (hasDrive) levels.hasDrive = true;
  else delete levels.hasDrive;
  levels.startGuess = fresh.startGuess;
  levels.runs = [];
  levels.running = undefined;
  updateThresholds(levels);
}
