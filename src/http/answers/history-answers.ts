/**
 * The past of a well: charts in people's units, cycles, and days with the medians of their cycles'
 * levels.
 */
import type { CycleRow } from '../../core/cycles/cycle-row.ts';
import { median } from 'simple-statistics';
import { channelUnit } from '../../../shared/api/channel-units.ts';
import type { ChartAnswer, CyclesAnswer, DayAnswer } from '../../../shared/api/history.ts';
import { CYCLES_MAX } from '../../../shared/api/queries.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import type { WebDeps } from '../deps.ts';
import { ProblemError } from '../problem.ts';
import { wellChart } from '../well-chart.ts';
import { requireWell } from './well-answers.ts';
import { texts } from '../texts.ts';

/** As many steps as a phone is wide, in device pixels, about. */
const DEFAULT_POINTS = 600;

/** @throws ProblemError 404 for a well or channel that does not exist. */
export async function chartAnswer(
  deps: WebDeps,
  name: string,
  ask: { channel: string; from: number; to: number; points?: number },
): Promise<ChartAnswer> {
  const { card } = await requireWell(deps, name);
  const unit = channelUnit(ask.channel);
  if (!unit) throw new ProblemError(404, texts().noSuchChannel(ask.channel));
  const { channel, from: fromMs, to: toMs, points = DEFAULT_POINTS } = ask;
  const chart = await wellChart(deps.store, card, { channel, fromMs, toMs, points });
  const scale = (line: (number | null)[]) =>
    unit.factor === 1 ? line : line.map((value) => (value === null ? null : value * unit.factor));
  return {
    channel,
    unit: unit.unit,
    fromMs: chart.fromMs,
    stepMs: chart.stepMs,
    low: scale(chart.low),
    high: scale(chart.high),
    mean: scale(chart.mean),
  };
}

export async function cyclesAnswer(
  deps: WebDeps,
  name: string,
  ask: { from: number; to: number; limit?: number },
): Promise<CyclesAnswer> {
  await requireWell(deps, name);
  const limit = ask.limit ?? CYCLES_MAX;
  const rows = await deps.store.cycles(name, ask.from, ask.to);
  return { cycles: rows.slice(-limit).map((row) => row.event), more: rows.length > limit };
}

export async function daysAnswer(
  deps: WebDeps,
  name: string,
  ask: { from: number; to: number; levels?: boolean },
): Promise<{ days: DayAnswer[] }> {
  const { card } = await requireWell(deps, name);
  const days = await deps.store.days(name, ask.from, ask.to);
  if (ask.levels !== true) return { days };
  const byDay = levelsByDay(await deps.store.cycles(name, ask.from, ask.to), card.timeZone);
  return { days: days.map((day) => ({ ...day, ...byDay.get(`${day.pump ?? ''} ${day.date}`) })) };
}

type Levels = Pick<DayAnswer, 'cutInKpaMedian' | 'cutOutKpaMedian'>;

/**
 * Medians of the cycles of each pump and local day; a day without pump (the whole well) has them
 * only where there is one pump.
 */
function levelsByDay(rows: readonly CycleRow[], timeZone: string): Map<string, Levels> {
  const grouped = new Map<string, { cutIn: number[]; cutOut: number[] }>();
  for (const { event, startedMs } of rows) {
    const key = `${event.pump} ${localDate(startedMs, timeZone)}`;
    const group = grouped.get(key) ?? { cutIn: [], cutOut: [] };
    grouped.set(key, group);
    if (event.cutInKpa !== undefined) group.cutIn.push(event.cutInKpa);
    if (event.cutOutKpa !== undefined) group.cutOut.push(event.cutOutKpa);
  }
  return new Map(
    [...grouped].map(([key, { cutIn, cutOut }]) => [
      key,
      {
        ...(cutIn.length > 0 ? { cutInKpaMedian: median(cutIn) } : {}),
        ...(cutOut.length > 0 ? { cutOutKpaMedian: median(cutOut) } : {}),
      },
    ]),
  );
}
