/**
 * An alarm says when its condition began, and that may be days before it was raised. What was
 * learned in between is of a well that was not as it should be: it is taken back, so that "normal"
 * is what was normal before. Of the days that are left the baseline is made again. Where they are
 * too few, what was learned first stands in for them, until there are enough again.
 */
import type { Baseline } from './baseline.ts';
import { baselineOf } from './baseline-of-days.ts';
import { forgetDays, type Learning } from './learning.ts';

export interface ForgetOrder {
  /** When the condition began, and the local date that holds that moment. */
  sinceMs: number;
  fromDate: string;
  baseline: Baseline | undefined;
  pinned: Baseline | undefined;
}

/** Takes the days back and returns what is normal now; undefined where that is what it was. */
export function baselineBefore(state: Learning, order: ForgetOrder): Baseline | undefined {
  const { baseline, pinned, fromDate, sinceMs } = order;
  if (!forgetDays(state, fromDate) || !baseline) return undefined;
  const remade = !state.isShortOfDays;
  // What was learned first is no older measure where it was learned after the condition began.
  if (!remade && (!pinned || pinned.atMs > sinceMs)) return undefined;
  const manual = pinned?.pinned === true ? pinned : undefined;
  const before = remade
    ? baselineOf(state, { atMs: Math.min(baseline.atMs, sinceMs), date: fromDate }, manual)
    : pinned!;
  // How a run usually looks is one running estimate, of which no day can be taken back.
  return {
    ...before,
    ...(baseline.shape && { shape: baseline.shape }),
    ...(baseline.lastEmitted && { lastEmitted: baseline.lastEmitted }),
  };
}
