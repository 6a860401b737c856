/**
 * A channel of a well as a chart, wherever it comes from at each time: the card says which node
 * (src/core/domain/sources.ts). A chart across the day a node was replaced is put together from
 * both.
 */
import type { Card } from '../core/domain/card.ts';
import { channelCode } from '../core/domain/channels.ts';
import { sourcesOf } from '../core/domain/sources.ts';
import type { StoredChart, WebStore } from './deps.ts';

/**
 * The channel in even steps, each from the source that held at the step's start. In the wire's
 * unit.
 */
export async function wellChart(
  store: WebStore,
  card: Card,
  ask: { channel: string; fromMs: number; toMs: number; points: number },
): Promise<StoredChart> {
  const { channel, fromMs, toMs, points } = ask;
  const code = channelCode(channel);
  const sources = sourcesOf(card).filter(
    (source) => source.code === code && source.sinceMs < toMs && source.untilMs > fromMs,
  );
  const parts = await Promise.all(
    sources.map(async ({ node, nodeChannel, sinceMs, untilMs }) => ({
      sinceMs,
      untilMs,
      chart: await store.chart(node, nodeChannel, fromMs, toMs, points),
    })),
  );
  const grid = parts[0]?.chart ?? emptyChart(fromMs, toMs, points);
  const line = (of: 'low' | 'high' | 'mean'): (number | null)[] =>
    grid[of].map((_, step) => {
      const atMs = grid.fromMs + step * grid.stepMs;
      const part = parts.find(({ sinceMs, untilMs }) => sinceMs <= atMs && atMs < untilMs);
      return part?.chart[of][step] ?? null;
    });
  return {
    fromMs: grid.fromMs,
    stepMs: grid.stepMs,
    low: line('low'),
    high: line('high'),
    mean: line('mean'),
  };
}

/** For a channel that the well has not: a pump too many. */
function emptyChart(fromMs: number, toMs: number, points: number): StoredChart {
  return { fromMs, stepMs: Math.max(1, Math.ceil((toMs - fromMs) / points)), low: [], high: [], mean: [] };
}
