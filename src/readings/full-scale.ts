/**
 * The most that a node's sensors can show, as its hello says (`max`; contract, section 3). It counts from the next minute but one after
 * the hello: by then even a server that hands news on now and then has done so, and live and `replay` know it at the same reading. A well
 * that reads from the node only later (its first pack, a node let in, a new card) is told then.
 */
import { channelCode, channelUnit } from '../card/channels.ts';
import type { Hello } from '../wire/messages.ts';
import type { NewsItem } from './news.ts';

export interface FullScale {
  /** By channel, in the contract's unit. */
  most: Record<string, number>;
  /** From when it counts. */
  atMs: number;
}

const MINUTE_MS = 60_000;
/** Places of base channels whose readings go into the numbers of a run: three currents, pressure, flow. */
const OF_RUNS: ReadonlySet<number> = new Set([0, 1, 2, 3, 7]);

/** A hello that says otherwise than the one before it is news. Returns what is known now, nothing where neither said anything. */
export function hearFullScale(
  known: FullScale | undefined,
  hello: Hello,
  arrivalMs: number,
  news: NewsItem[],
): FullScale | undefined {
  const most = mostOf(hello);
  if (isSame(known?.most ?? {}, most)) return known;
  const scale = { most, atMs: countsFrom(arrivalMs) };
  news.push(fullScaleNews(scale, hello.node, scale.atMs));
  return scale;
}

/** From when what is told at `nowMs` counts. */
export function countsFrom(nowMs: number): number {
  return (Math.floor(nowMs / MINUTE_MS) + 2) * MINUTE_MS;
}

export function fullScaleNews({ most }: FullScale, node: string, atMs: number): NewsItem {
  return { atMs, node: { news: 'full-scale', node, most } };
}

function mostOf({ channels }: Hello): Record<string, number> {
  const most: Record<string, number> = {};
  for (const { n, u, max } of channels) {
    const code = channelCode(n);
    if (max === undefined || max <= 0 || code === undefined || channelUnit(n) !== u) continue;
    if (OF_RUNS.has(code & 15)) most[n] = max;
  }
  return most;
}

function isSame(a: Record<string, number>, b: Record<string, number>): boolean {
  const names = Object.keys(a);
  return names.length === Object.keys(b).length && names.every((name) => a[name] === b[name]);
}
