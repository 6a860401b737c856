/**
 * When the silence of a node is news: after longer than this node ever is silent, judged by arrival alone. What a node is used to is
 * learnt from its own silences; floors and ceilings stand for what isn't known yet. A node that said its supply has failed is not
 * silent but without power, and our own absence is nobody's silence.
 */
import type { Hello, Presence } from '../wire/messages.ts';
import type { NewsItem } from './news.ts';

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const DAY_MS = 24 * HOUR_MS;

/** A router that restarts takes up to 5 min, and back-off of a node's connection as much again. */
const SHORTEST_MS = 10 * MINUTE_MS;
/** A node that speaks once a day, a day of 25 h and an hour late included. */
const LONGEST_MS = 26 * HOUR_MS;
/** Until a node was heard often enough to have habits. */
const STRANGER_MS = HOUR_MS;
const KNOWN_AFTER = 5;
/** Missing two of three turns may be chance. */
const TURNS = 3;
/** Silences worth remembering: half of what could be news, at most 8 in 30 days. */
const GAP_WORTH_MS = SHORTEST_MS / 2;
const MAX_GAPS = 8;
const GAPS_FOR_MS = 30 * DAY_MS;
/** A silence is a habit once it came three times; one outage is none. */
const HABIT_TIMES = 3;
const OVER_HABIT = 1.5;
/** Messages of one burst are one turn. */
const BURST_MS = 1_000;

export interface Hearing {
  /** Arrival of its last message; 0 before the first. */
  heardMs: number;
  /** Usual time between its turns, and how many were seen (no more than needed). */
  turnMs: number;
  turns: number;
  /** Its longest silences: how long, and when it ended. */
  gaps: { forMs: number; endedMs: number }[];
  everyMs: number;
  holdsMs: number;
  /** It was told to be silent, since when. */
  silentSinceMs?: number;
  noPower?: true;
}

export function newHearing(): Hearing {
  return { heardMs: 0, turnMs: 0, turns: 0, gaps: [], everyMs: 0, holdsMs: 0 };
}

/** How long this node may be silent before that is news, in ms. */
export function silenceLimitMs(hearing: Hearing, nowMs: number): number {
  const habits = hearing.gaps
    .filter((gap) => gap.endedMs > nowMs - GAPS_FOR_MS)
    .map((gap) => gap.forMs)
    .sort((a, b) => b - a);
  const habitMs = (habits[HABIT_TIMES - 1] ?? 0) * OVER_HABIT;
  const turnMs = TURNS * Math.max(hearing.everyMs, hearing.turnMs);
  const strangerMs = hearing.turns < KNOWN_AFTER ? STRANGER_MS : 0;
  // Beyond what it can hold, its readings are lost: that is news whatever the habit.
  const longestMs = hearing.holdsMs > 0 ? Math.min(LONGEST_MS, hearing.holdsMs) : LONGEST_MS;
  return Math.max(SHORTEST_MS, Math.min(longestMs, Math.max(habitMs, turnMs, strangerMs)));
}

/** When the silence that goes on now becomes news, Unix ms; Infinity where it won't. */
export function silenceDueMs(hearing: Hearing): number {
  if (hearing.heardMs === 0 || hearing.noPower || hearing.silentSinceMs !== undefined)
    return Number.POSITIVE_INFINITY;
  return hearing.heardMs + silenceLimitMs(hearing, hearing.heardMs);
}

/** Time goes on to `nowMs`: a silence that became news meanwhile is told with the time at which it did. */
export function passSilence(hearing: Hearing, node: string, nowMs: number, news: NewsItem[]): void {
  const dueMs = silenceDueMs(hearing);
  if (dueMs >= nowMs) return;
  hearing.silentSinceMs = hearing.heardMs;
  news.push({ atMs: dueMs, node: { news: 'silent', node, sinceMs: hearing.heardMs } });
}

/** The node itself was heard: a pack (also one that came before), a hello or a presence that is no copy. */
export function hear(hearing: Hearing, node: string, nowMs: number, news: NewsItem[]): void {
  passSilence(hearing, node, nowMs, news);
  endNoPower(hearing, node, nowMs, news);
  const forMs = nowMs - hearing.heardMs;
  if (hearing.silentSinceMs !== undefined) {
    delete hearing.silentSinceMs;
    news.push({ atMs: nowMs, node: { news: 'heard', node } });
  } else if (hearing.heardMs > 0 && forMs > BURST_MS && forMs < LONGEST_MS) {
    hearing.turnMs += (forMs - hearing.turnMs) / (hearing.turns === 0 ? 1 : 8);
  }
  if (hearing.heardMs > 0 && forMs > BURST_MS && hearing.turns < KNOWN_AFTER) hearing.turns++;
  if (hearing.heardMs > 0 && forMs >= GAP_WORTH_MS) rememberGap(hearing, forMs, nowMs);
  if (nowMs > hearing.heardMs) hearing.heardMs = nowMs;
}

function rememberGap(hearing: Hearing, forMs: number, endedMs: number): void {
  hearing.gaps = hearing.gaps.filter((gap) => gap.endedMs > endedMs - GAPS_FOR_MS);
  hearing.gaps.push({ forMs: Math.round(forMs), endedMs });
  hearing.gaps.sort((a, b) => b.forMs - a.forMs);
  hearing.gaps.length = Math.min(hearing.gaps.length, MAX_GAPS);
}

/**
 * What a node, its Will or a copy of either says of it. A `gone` says only that the connection broke: how long that lasts is what
 * counts, and after a `no-power` it says nothing new at all.
 */
export function hearPresence(
  hearing: Hearing,
  said: { node: string; presence: Presence; retained: boolean },
  nowMs: number,
  news: NewsItem[],
): void {
  const { node, presence, retained } = said;
  passSilence(hearing, node, nowMs, news);
  switch (presence) {
    case 'here':
      if (retained) endNoPower(hearing, node, nowMs, news);
      else hear(hearing, node, nowMs, news);
      break;
    case 'gone':
      break;
    case 'no-power':
      if (!retained) hear(hearing, node, nowMs, news);
      if (hearing.noPower) break;
      hearing.noPower = true;
      news.push({ atMs: nowMs, node: { news: 'no-power', node } });
      break;
    default:
      presence satisfies never;
  }
}

function endNoPower(hearing: Hearing, node: string, nowMs: number, news: NewsItem[]): void {
  if (!hearing.noPower) return;
  delete hearing.noPower;
  news.push({ atMs: nowMs, node: { news: 'power-back', node } });
}

/** What a hello promises of how often and how long. */
export function hearPromise(hearing: Hearing, hello: Hello): void {
  hearing.everyMs = 1000 * Math.max(0, ...hello.channels.map((channel) => channel.every ?? 0));
  hearing.holdsMs = 1000 * (hello.holdsS ?? 0);
}

/** The server was away from `fromMs` to `untilMs`: what fell silent before is told, the rest is counted from our return. */
export function excuseSilence(
  hearing: Hearing,
  node: string,
  away: { fromMs: number; untilMs: number },
  news: NewsItem[],
): void {
  passSilence(hearing, node, away.fromMs, news);
  if (hearing.silentSinceMs === undefined && hearing.heardMs > 0) {
    hearing.heardMs = Math.max(hearing.heardMs, away.untilMs);
  }
}
