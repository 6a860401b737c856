/**
 * How late this thread comes to what is due: the time that a pump's reading, a page or a notice
 * waits because something else holds the event loop. A timer asks every so often; where it comes
 * late by several times its interval, each time that it should have asked counts with the delay it
 * would have met. One stall of four seconds is so no single sample among thousands.
 */
import type { DelayHistogram, LoopDelayAnswer } from '../../shared/api/server-state.ts';

/** How often the loop is asked. Common practice, no source: far below what a person notices. */
const EVERY_MS = 50;
/** Upper bounds of the histogram's classes, seconds. */
export const DELAY_BOUNDS_S = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10] as const;
/** What `/health` speaks of. */
const RECENT_MINUTES = 10;
/**
 * A notice is to be handed on within 2 s of its reading: half of it is left for the work itself.
 */
const BUSY_MS = 1000;

interface Minute {
  minute: number;
  counts: number[];
  maxMs: number;
}

export interface LoopDelay {
  /** Since the start. */
  histogram(): DelayHistogram;
  /** Of the last ten minutes; absent before the first sample. */
  recent(): LoopDelayAnswer | undefined;
  close(): void;
}

/** Counts delays. `nowMs` is any clock that never goes back. */
export interface DelayCounter {
  /** The loop came `delayMs` late at `nowMs`. */
  add(delayMs: number, nowMs: number): void;
  histogram(): DelayHistogram;
  recent(nowMs: number): LoopDelayAnswer | undefined;
}

const NO_COUNTS: readonly number[] = [...DELAY_BOUNDS_S.map(() => 0), 0];

export function newDelayCounter(): DelayCounter {
  const counts = [...NO_COUNTS];
  let sumMs = 0;
  let minutes: Minute[] = [];
  const minuteAt = (nowMs: number): Minute => {
    const minute = minuteOf(nowMs);
    const last = minutes.at(-1);
    if (last?.minute === minute) return last;
    const next: Minute = { minute, counts: [...NO_COUNTS], maxMs: 0 };
    minutes = [...minutes.slice(1 - RECENT_MINUTES), next];
    return next;
  };
  const addOne = (delayMs: number, nowMs: number): void => {
    const at = DELAY_BOUNDS_S.findIndex((bound) => delayMs <= bound * 1000);
    const index = at === -1 ? DELAY_BOUNDS_S.length : at;
    counts[index] = (counts[index] ?? 0) + 1;
    sumMs += delayMs;
    const minute = minuteAt(nowMs);
    minute.counts[index] = (minute.counts[index] ?? 0) + 1;
    minute.maxMs = Math.max(minute.maxMs, delayMs);
  };
  return {
    add: (delayMs, nowMs) => {
      // Each time that the timer should have come counts with the delay it would have met.
      for (let late = Math.max(0, delayMs); ; late -= EVERY_MS) {
        addOne(late, nowMs);
        if (late < EVERY_MS) return;
      }
    },
    histogram: () => {
      let count = 0;
      const cumulative = counts.map((n) => (count += n));
      return { boundsS: DELAY_BOUNDS_S, cumulative, sumS: sumMs / 1000 };
    },
    recent: (nowMs) => recentOf(minutes.filter(({ minute }) => minute > minuteOf(nowMs) - RECENT_MINUTES)),
  };
}

function recentOf(minutes: readonly Minute[]): LoopDelayAnswer | undefined {
  const counts = NO_COUNTS.map((_, k) => minutes.reduce((sum, one) => sum + (one.counts[k] ?? 0), 0));
  const total = counts.reduce((sum, n) => sum + n, 0);
  if (total === 0) return undefined;
  const maxMs = Math.max(...minutes.map((one) => one.maxMs));
  const within = (share: number): number => Math.min(maxMs, boundMs(counts, share * total));
  return { minutes: RECENT_MINUTES, halfMs: within(0.5), p99Ms: within(0.99), maxMs };
}

function minuteOf(nowMs: number): number {
  return Math.floor(nowMs / 60_000);
}

/** The bound under which the first `n` samples lie; endless where they lie over the last one. */
function boundMs(counts: readonly number[], n: number): number {
  let sum = 0;
  const at = counts.findIndex((one) => (sum += one) >= n);
  return 1000 * (DELAY_BOUNDS_S[at] ?? Number.POSITIVE_INFINITY);
}

/** Is the server so busy that an alarm can come late? */
export function isBusy(recent: LoopDelayAnswer | undefined): recent is LoopDelayAnswer {
  return recent !== undefined && recent.p99Ms > BUSY_MS;
}

/** Begins to ask. It keeps no process alive. */
export function watchLoopDelay(): LoopDelay {
  const counter = newDelayCounter();
  let dueMs = performance.now() + EVERY_MS;
  const timer = setInterval(() => {
    const nowMs = performance.now();
    counter.add(nowMs - dueMs, nowMs);
    dueMs = nowMs + EVERY_MS;
  }, EVERY_MS).unref();
  return {
    histogram: () => counter.histogram(),
    recent: () => counter.recent(performance.now()),
    close: () => clearInterval(timer),
  };
}
