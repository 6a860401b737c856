/**
 * A timed drawdown that the level sensor saw by itself: the longest run of a month, with its levels
 * at the minutes at which people would read them, before, during and after. It is offered to be
 * saved as a test; whether taps stood open all along is for a person to say.
 */
import type { MeasuredTest } from '../../../shared/api/figures/yield-tests.ts';
import type { CycleRow } from '../../core/cycles/cycle-row.ts';

/** Levels in even steps, m over the pump; null where nothing was measured. */
export interface LevelSeries {
  fromMs: number;
  stepMs: number;
  mean: readonly (number | null)[];
}

const MINUTE_S = 60;
/** A shorter run only tells of the casing's own water (common practice, no source). */
const MIN_TEST_RUN_S = 20 * MINUTE_S;
/** How long before and after a run its levels are wanted. */
export const BEFORE_S = 5 * MINUTE_S;
export const AFTER_S = 120 * MINUTE_S;
/** Closer together at first, as drawdowns are read (common practice, no source). */
const MINUTES = [1, 2, 3, 5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 1440];

/** The longest run that is long enough; undefined where there is none. */
export function longestRun(rows: readonly CycleRow[]): CycleRow | undefined {
  const [longest] = rows.toSorted((a, b) => b.event.ranS - a.event.ranS);
  return longest && longest.event.ranS >= MIN_TEST_RUN_S ? longest : undefined;
}

export interface MeasuredInput {
  run: CycleRow;
  /** When the pump started again. */
  nextStartMs?: number;
  levels: LevelSeries;
  setDepthM: number;
}

export function measuredTest({
  run,
  nextStartMs = Infinity,
  levels,
  setDepthM,
}: MeasuredInput): MeasuredTest | undefined {
  const { startedMs, stoppedMs, event } = run;
  const depthAt = (ms: number): number | undefined => {
    const over = levels.mean[Math.floor((ms - levels.fromMs) / levels.stepMs)];
    return over === null || over === undefined ? undefined : setDepthM - over;
  };
  const staticM = depthAt(startedMs - MINUTE_S * 1000);
  if (staticM === undefined) return undefined;
  const pointsFrom = (fromMs: number, endMs: number) =>
    MINUTES.map((minutes) => minutes * MINUTE_S)
      .filter((timeS) => fromMs + timeS * 1000 < endMs)
      .flatMap((timeS) => {
        const levelM = depthAt(fromMs + timeS * 1000);
        return levelM === undefined ? [] : [{ timeS, levelM }];
      });
  const points = pointsFrom(startedMs, stoppedMs);
  if (points.length < 2) return undefined;
  const endMs = Math.min(nextStartMs, stoppedMs + AFTER_S * 1000);
  const { deliveredL, ranS } = event;
  return {
    startedMs,
    staticM,
    ...(deliveredL !== undefined && { flowLPerS: deliveredL / ranS }),
    points,
    recovery: pointsFrom(stoppedMs, endMs),
  };
}
