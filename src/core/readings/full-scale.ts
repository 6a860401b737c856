/**
 * What a node's hello says of its sensors (contract, section 3): the most that each can show
 * (`max`), and the span that one reading is the mean of (`is`, `over`). It counts from the next
 * minute but one after the hello: by then even a server that hands news on now and then has done
 * so, and live and `replay` know it at the same reading. A well that reads from the node only later
 * (its first pack, a node let in, a new card) is told then.
 */
import { MINUTE_MS } from '../../../shared/units/duration.ts';
import { channelCode, channelUnit, baseOf, type BaseChannel } from '../domain/channels.ts';
import type { Hello } from '../decode/messages.ts';
import type { NewsItem } from './news.ts';

export interface FullScale {
  /** By channel, in the contract's unit. */
  maxByChannel: Record<string, number>;
  /** The span that ends at a reading's time and that it is the mean of, by channel, ms. */
  spanMsByChannel?: Record<string, number>;
  /** From when it counts. */
  atMs: number;
}

/** Base channels whose readings go into the numbers of a run. */
const RUN_CHANNELS: ReadonlySet<BaseChannel | undefined> = new Set<BaseChannel>([
  'current',
  'current-2',
  'current-3',
  'pressure',
  'flow',
  'power',
]);

/**
 * A mean over less than this is as good as a spot reading: the first 2 s of a run are its inrush
 * and count apart anyhow (contract, section 6).
 */
const MIN_SPAN_MS = 2000;

/**
 * A hello that says otherwise than the one before it is news. Returns what is known now, nothing
 * where neither said anything.
 */
export function updateFullScale(
  known: FullScale | undefined,
  hello: Hello,
  arrivalMs: number,
  news: NewsItem[],
): FullScale | undefined {
  const maxByChannel = fullScalesOf(hello);
  const spanMsByChannel = spansOf(hello);
  if (
    isSame(known?.maxByChannel ?? {}, maxByChannel) &&
    isSame(known?.spanMsByChannel ?? {}, spanMsByChannel)
  )
    return known;
  const spans = Object.keys(spanMsByChannel).length > 0 && { spanMsByChannel };
  const scale: FullScale = { maxByChannel, ...spans, atMs: effectiveFromMs(arrivalMs) };
  news.push(fullScaleNews(scale, hello.node, scale.atMs));
  return scale;
}

/** From when what is told at `nowMs` counts. */
export function effectiveFromMs(nowMs: number): number {
  return (Math.floor(nowMs / MINUTE_MS) + 2) * MINUTE_MS;
}

export function fullScaleNews({ atMs: _from, ...said }: FullScale, node: string, atMs: number): NewsItem {
  return { atMs, node: { news: 'full-scale', node, ...said } };
}

function fullScalesOf({ channels }: Hello): Record<string, number> {
  const maxByChannel: Record<string, number> = {};
  for (const { n, u, max } of channels) {
    const code = channelCode(n);
    if (max === undefined || max <= 0 || code === undefined || channelUnit(n) !== u) continue;
    if (RUN_CHANNELS.has(baseOf(code))) maxByChannel[n] = max;
  }
  return maxByChannel;
}

/** Only spans long enough to hold a start or a stop beside the run itself. */
function spansOf({ channels }: Hello): Record<string, number> {
  const spanMsByChannel: Record<string, number> = {};
  for (const { n, u, is, over } of channels) {
    const code = channelCode(n);
    if (is !== 'mean' || over === undefined || code === undefined || channelUnit(n) !== u) continue;
    if (over * 1000 > MIN_SPAN_MS && RUN_CHANNELS.has(baseOf(code))) spanMsByChannel[n] = over * 1000;
  }
  return spanMsByChannel;
}

function isSame(a: Record<string, number>, b: Record<string, number>): boolean {
  const names = Object.keys(a);
  return names.length === Object.keys(b).length && names.every((name) => a[name] === b[name]);
}
