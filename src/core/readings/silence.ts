/**
 * When the silence of a node is news: after longer than this node ever is silent, judged by arrival
 * alone. What a node is used to is learnt from its own silences; floors and ceilings stand for what
 * isn't known yet. A node that said its supply has failed is not silent but without power, and our
 * own absence is nobody's silence.
 */
import { DAY_MS, HOUR_MS, MINUTE_MS } from '../../../shared/units/duration.ts';
import type { Hello, Presence } from '../decode/messages.ts';
import type { NewsItem } from './news.ts';

/** A router that restarts takes up to 5 min, and back-off of a node's connection as much again. */
const MIN_SILENCE_MS = 10 * MINUTE_MS;
/** A node that speaks once a day, a day of 25 h and an hour late included. */
const MAX_SILENCE_MS = 26 * HOUR_MS;
/** Until a node was heard often enough to have habits. */
const NEW_NODE_SILENCE_MS = HOUR_MS;
const KNOWN_AFTER_BURSTS = 5;
/** Missing two of three turns may be chance. */
const MISSED_BURSTS = 3;
/** Silences worth remembering: half of what could be news, at most 8 in 30 days. */
const MIN_GAP_MS = MIN_SILENCE_MS / 2;
const MAX_GAPS = 8;
const GAP_MEMORY_MS = 30 * DAY_MS;
/** A silence is a habit once it came three times; one outage is none. */
const HABIT_MIN_COUNT = 3;
const HABIT_FACTOR = 1.5;
/** Messages of one burst are one turn. */
const BURST_MS = 1_000;

export interface Liveness {
  /** Arrival of its last message; 0 before the first. */
  lastHeardMs: number;
  /** Usual time between its turns, and how many were seen (no more than needed). */
  burstIntervalMs: number;
  burstCount: number;
  /** Its longest silences: how long, and when it ended. */
  gaps: { durationMs: number; endedMs: number }[];
  reportIntervalMs: number;
  bufferMs: number;
  /** It was told to be silent, since when. */
  silentSinceMs?: number;
  noPower?: true;
}

export function newLiveness(): Liveness {
  return { lastHeardMs: 0, burstIntervalMs: 0, burstCount: 0, gaps: [], reportIntervalMs: 0, bufferMs: 0 };
}

/** How long this node may be silent before that is news, in ms. */
export function silenceLimitMs(liveness: Liveness, nowMs: number): number {
  const habits = liveness.gaps
    .filter((gap) => gap.endedMs > nowMs - GAP_MEMORY_MS)
    .map((gap) => gap.durationMs)
    .sort((a, b) => b - a);
  const habitMs = (habits[HABIT_MIN_COUNT - 1] ?? 0) * HABIT_FACTOR;
  const burstsMs = MISSED_BURSTS * Math.max(liveness.reportIntervalMs, liveness.burstIntervalMs);
  const newNodeMs = liveness.burstCount < KNOWN_AFTER_BURSTS ? NEW_NODE_SILENCE_MS : 0;
  // Beyond what it can hold, its readings are lost: that is news whatever the habit.
  const maxMs = liveness.bufferMs > 0 ? Math.min(MAX_SILENCE_MS, liveness.bufferMs) : MAX_SILENCE_MS;
  return Math.max(MIN_SILENCE_MS, Math.min(maxMs, Math.max(habitMs, burstsMs, newNodeMs)));
}

/** When the silence that goes on now becomes news, Unix ms; Infinity where it won't. */
export function silenceDueMs(liveness: Liveness): number {
  if (liveness.lastHeardMs === 0 || liveness.noPower || liveness.silentSinceMs !== undefined)
    return Number.POSITIVE_INFINITY;
  return liveness.lastHeardMs + silenceLimitMs(liveness, liveness.lastHeardMs);
}

/**
 * Time goes on to `nowMs`: a silence that became news meanwhile is told with the time at which it
 * did.
 */
export function advanceSilence(liveness: Liveness, node: string, nowMs: number, news: NewsItem[]): void {
  const dueMs = silenceDueMs(liveness);
  if (dueMs >= nowMs) return;
  liveness.silentSinceMs = liveness.lastHeardMs;
  news.push({ atMs: dueMs, node: { news: 'silent', node, sinceMs: liveness.lastHeardMs } });
}

/**
 * The node itself was heard: a pack (also one that came before), a hello or a presence that is no
 * copy.
 */
export function markHeard(liveness: Liveness, node: string, nowMs: number, news: NewsItem[]): void {
  advanceSilence(liveness, node, nowMs, news);
  endNoPower(liveness, node, nowMs, news);
  const durationMs = nowMs - liveness.lastHeardMs;
  if (liveness.silentSinceMs !== undefined) {
    delete liveness.silentSinceMs;
    news.push({ atMs: nowMs, node: { news: 'heard', node } });
  } else if (liveness.lastHeardMs > 0 && durationMs > BURST_MS && durationMs < MAX_SILENCE_MS) {
    liveness.burstIntervalMs += (durationMs - liveness.burstIntervalMs) / (liveness.burstCount === 0 ? 1 : 8);
  }
  if (liveness.lastHeardMs > 0 && durationMs > BURST_MS && liveness.burstCount < KNOWN_AFTER_BURSTS)
    liveness.burstCount++;
  if (liveness.lastHeardMs > 0 && durationMs >= MIN_GAP_MS) rememberGap(liveness, durationMs, nowMs);
  if (nowMs > liveness.lastHeardMs) liveness.lastHeardMs = nowMs;
}

function rememberGap(liveness: Liveness, durationMs: number, endedMs: number): void {
  liveness.gaps = liveness.gaps.filter((gap) => gap.endedMs > endedMs - GAP_MEMORY_MS);
  liveness.gaps.push({ durationMs: Math.round(durationMs), endedMs });
  liveness.gaps.sort((a, b) => b.durationMs - a.durationMs);
  liveness.gaps.length = Math.min(liveness.gaps.length, MAX_GAPS);
}

/**
 * What a node, its Will or a copy of either says of it. A `gone` says only that the connection
 * broke: how long that lasts is what counts, and after a `no-power` it says nothing new at all.
 */
export function applyPresence(
  liveness: Liveness,
  message: { node: string; presence: Presence; retained: boolean },
  nowMs: number,
  news: NewsItem[],
): void {
  const { node, presence, retained } = message;
  advanceSilence(liveness, node, nowMs, news);
  switch (presence) {
    case 'here':
      if (retained) endNoPower(liveness, node, nowMs, news);
      else markHeard(liveness, node, nowMs, news);
      break;
    case 'gone':
      break;
    case 'no-power':
      if (!retained) markHeard(liveness, node, nowMs, news);
      if (liveness.noPower) break;
      liveness.noPower = true;
      news.push({ atMs: nowMs, node: { news: 'no-power', node } });
      break;
    default:
      presence satisfies never;
  }
}

function endNoPower(liveness: Liveness, node: string, nowMs: number, news: NewsItem[]): void {
  if (!liveness.noPower) return;
  delete liveness.noPower;
  news.push({ atMs: nowMs, node: { news: 'power-back', node } });
}

/** What a hello promises of how often and how long. */
export function applyHelloIntervals(liveness: Liveness, hello: Hello): void {
  liveness.reportIntervalMs = 1000 * Math.max(0, ...hello.channels.map((channel) => channel.every ?? 0));
  liveness.bufferMs = 1000 * (hello.holdsS ?? 0);
}

/**
 * The server was away from `fromMs` to `untilMs`: what fell silent before is told, the rest is
 * counted from our return.
 */
export function discountOutage(
  liveness: Liveness,
  node: string,
  away: { fromMs: number; untilMs: number },
  news: NewsItem[],
): void {
  advanceSilence(liveness, node, away.fromMs, news);
  if (liveness.silentSinceMs === undefined && liveness.lastHeardMs > 0) {
    liveness.lastHeardMs = Math.max(liveness.lastHeardMs, away.untilMs);
  }
}
