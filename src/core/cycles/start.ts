/**
 * The start of a motor as a fast record shows it: how high the current went and how long it stayed
 * there. It stays near the current of a held rotor until the motor is up to speed, then falls
 * within a few turns of the supply to what it runs at; so the last reading of at least 0.6 of the
 * peak ends the inrush, wherever the running current comes to lie (a sixth to a quarter of the
 * peak: NEC table 430.7(B) over table 430.248). Two numbers are kept and no readings.
 */
export interface StartTrack {
  /** Highest reading so far, A. */
  peakAmps: number;
  /** First reading with current, last one near the peak, and the last of all, ms. */
  fromMs: number;
  highMs: number;
  lastMs: number;
}

const NEAR_PEAK_RATIO = 0.6;

export function newStart(tMs: number, amps: number): StartTrack {
  return { peakAmps: amps, fromMs: tMs, highMs: tMs, lastMs: tMs };
}

/**
 * One reading more. Readings under `onAmps` before the first current (0.2 s of rest lead a record)
 * begin nothing.
 */
export function addToStart(start: StartTrack, tMs: number, amps: number, onAmps: number): void {
  if (start.peakAmps <= onAmps) {
    start.fromMs = tMs;
    start.highMs = tMs;
  }
  if (amps > start.peakAmps) start.peakAmps = amps;
  if (amps >= NEAR_PEAK_RATIO * start.peakAmps) start.highMs = tMs;
  start.lastMs = tMs;
}

/** Length of the inrush, s: 0 where it was over within one reading. */
export function inrushS(start: StartTrack): number {
  return (start.highMs - start.fromMs) / 1000;
}
