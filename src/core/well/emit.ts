/** What the engine hands out, with the time by which it is ordered (contract, section 6). */
import type { WellEvent } from '../../../shared/api/events.ts';
import type { Cycle } from '../cycles/cycle.ts';

export interface Emitted {
  event: WellEvent;
  /** `stopped`, the day's end, or `at`, in ms. */
  orderMs: number;
  /** The whole cycle, with what the line does not print. */
  cycle?: Cycle;
}

export type Emit = (emitted: Emitted) => void;

/** UTC with milliseconds, as all lines print it. */
export function formatTime(tMs: number): string {
  return new Date(Math.round(tMs)).toISOString();
}
