/**
 * The current of a start that lasts, as any sampling of a few seconds shows it. A motor of a
 * private well is up to speed within a second (common practice, no source), so a reading two
 * seconds after the first one that still stands well over what the pump draws is no sound start:
 * contacts bounce, or the motor comes up slowly.
 */
import type { Cycle } from './cycle.ts';
import type { Run } from './run.ts';

/** A start that takes longer is a held rotor, and trips. */
export const MAX_LONG_START_MS = 30_000;
const NORMAL_START_MS = 2000;
/**
 * Over all that a load makes of it: at the most flow a pump draws a fifth more than in mid-band,
 * cold a per cent or two.
 */
const HIGH_CURRENT_RATIO = 1.35;

/**
 * One reading of the first line in the first seconds of a run. `running` is what the pump usually
 * draws, A, where that is known.
 */
export function recordHighCurrent(run: Run, tMs: number, amps: number, running: number | undefined): void {
  if (running === undefined || amps <= HIGH_CURRENT_RATIO * running || tMs - run.startedMs < NORMAL_START_MS)
    return;
  run.highCurrentMs = tMs;
  run.highCurrentN++;
  run.highCurrentSum += amps;
}

/**
 * What is said of it when the run is over: undefined where the start was sound, or the run no
 * longer than it, or all of it heavy.
 */
export function detectLongStart(run: Run, { amps, ranS }: Cycle): Cycle['longStart'] {
  if (run.highCurrentN === 0 || amps === undefined || ranS * 1000 <= MAX_LONG_START_MS) return undefined;
  const mean = run.highCurrentSum / run.highCurrentN;
  if (mean <= HIGH_CURRENT_RATIO * amps) return undefined;
  return {
    durationS: (run.highCurrentMs - run.startedMs) / 1000,
    ratio: Math.round((100 * mean) / amps) / 100,
  };
}
