/** The readings that are kept of a well's sources, as a run again wants them. */
import type { WellSource } from '../../core/fleet/fleet.ts';
import type { KeptColumn } from '../../core/fleet/rerun.ts';
import { isCurrent, startCodeOf } from '../../core/domain/channels.ts';
import { CLOCK_STEP_BIT } from '../../core/readings/segment.ts';
import type { Series, Store } from '../../store/store.ts';

const finiteUntilMs = (untilMs: number): number => Math.min(untilMs, Number.MAX_SAFE_INTEGER);

/** The time of the first reading; Infinity where none is kept. */
export async function firstKeptMs(store: Store, sources: readonly WellSource[]): Promise<number> {
  let first = Number.POSITIVE_INFINITY;
  for (const { node, channel, feed } of sources) {
    const { sinceMs, untilMs } = feed;
    const series = await store.readings(node, channel, Math.max(0, sinceMs), finiteUntilMs(untilMs));
    if (series.n > 0) first = Math.min(first, series.timeMs[0]!);
  }
  return first;
}

/** What was kept of [fromMs, untilMs), with the marks of clocks that stepped. */
export async function readKept(
  store: Store,
  sources: readonly WellSource[],
  fromMs: number,
  untilMs: number,
): Promise<KeptColumn[]> {
  const kept: KeptColumn[] = [];
  const steps = new Map<string, Set<number>>();
  for (const { node, channel, feed } of sources) {
    const from = Math.max(fromMs, feed.sinceMs);
    const until = Math.min(untilMs, finiteUntilMs(feed.untilMs));
    if (until <= from) continue;
    const stepTimes = steps.get(node) ?? new Set(await store.clockSteps(node, fromMs, untilMs));
    steps.set(node, stepTimes);
    kept.push(...columnOf(await store.readings(node, channel, from, until), feed, stepTimes));
    if (!isCurrent(feed.code)) continue;
    const start = { ...feed, code: startCodeOf(feed.code) };
    kept.push(...columnOf(await store.readings(node, `start:${channel}`, from, until), start, stepTimes));
  }
  return kept;
}

function columnOf(
  series: Series,
  feed: KeptColumn['feed'],
  clockStepTimes: ReadonlySet<number>,
): KeptColumn[] {
  if (series.n === 0) return [];
  const times = series.timeMs.subarray(0, series.n);
  const faults = series.fault.subarray(0, series.n);
  const marked = clockStepTimes.size > 0 && times.some((tMs) => clockStepTimes.has(tMs));
  const column = {
    times,
    values: series.value.subarray(0, series.n),
    faults: marked
      ? faults.map((fault, i) => (clockStepTimes.has(times[i]!) ? fault | CLOCK_STEP_BIT : fault))
      : faults,
  };
  return [{ column, feed }];
}
