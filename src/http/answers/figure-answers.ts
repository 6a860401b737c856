/** Figures of a well over the years: its water, and its pumps on their curves. */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import type { CycleEvent, DayEvent } from '../../../shared/api/events.ts';
import type { PumpFigures } from '../../../shared/api/figures/figures.ts';
import { currentEntries, entriesOf, type Entry } from '../../../shared/entries/entry.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { PumpCard } from '../../core/domain/card.ts';
import { voltDrop } from '../../core/domain/wire-resistance.ts';
import { readingSi } from '../../logbook/entries/read-reading.ts';
import { curveOf, dutyPoint } from '../../logbook/figures/duty-point.ts';
import { pumpTotals } from '../../logbook/figures/pump-totals.ts';
import { waterTotals } from '../../logbook/figures/water-totals.ts';
import type { LiveWell, WebDeps } from '../deps.ts';
import { wellChart } from '../well-chart.ts';
import { requireWell } from './well-answers.ts';

/** The runs that say how a pump works now. */
const RECENT_MS = 7 * DAY_MS;
/** An older sounding tells of another season's water. */
const LEVEL_MS = 365 * DAY_MS;
/** Steps of a week of levels: about 10 min each. */
const LEVEL_POINTS = 1000;

export async function figuresAnswer(deps: WebDeps, name: string): Promise<Answer<'figures'>> {
  const live = await requireWell(deps, name);
  const { card } = live;
  const nowMs = deps.now();
  const days = await deps.store.days(name, 0, nowMs + DAY_MS);
  const runs = (await deps.store.cycles(name, nowMs - RECENT_MS, nowMs + 1)).map(({ event }) => event);
  const entries = currentEntries(await deps.logbook.entries(name));
  const allowedL = card.description?.permit?.allowedL;
  const allowed = allowedL === undefined ? {} : { allowedL };
  return {
    nowMs,
    timeZone: card.timeZone,
    years: waterTotals({ days, today: localDate(nowMs, card.timeZone), ...allowed }),
    ...allowed,
    pumps: await Promise.all(
      card.pumps.map((pump) => pumpFigures(deps, live, pump, { days, runs, entries, nowMs })),
    ),
  };
}

interface PumpInput {
  days: readonly DayEvent[];
  runs: readonly CycleEvent[];
  entries: readonly Entry[];
  nowMs: number;
}

async function pumpFigures(
  deps: WebDeps,
  live: LiveWell,
  pump: PumpCard,
  { days, runs, entries, nowMs }: PumpInput,
): Promise<PumpFigures> {
  const { id, volts, phase, maxAmps: amps } = pump;
  const notes = live.card.description?.pumps[id];
  const curve = curveOf(notes);
  const level = (await levelFromSensor(deps, live, pump, nowMs)) ?? levelFromReading(entries, pump, nowMs);
  const isLoadKnown = amps !== undefined && volts !== undefined && phase !== undefined;
  const drop = isLoadKnown ? voltDrop(notes?.wire, { amps, volts, phase }) : undefined;
  return omitUndefined({
    pump: id,
    curve,
    level,
    duty: dutyPoint({
      runs: runs.filter((run) => run.pump === id),
      curve,
      ...(level && { pumpingLevelM: level.m }),
    }),
    totals: pumpTotals(days, id, pump.installed),
    drop: drop && amps !== undefined ? { ...drop, amps } : undefined,
  });
}

/**
 * The least water over the pump in the week, taken off its set depth. Of several pumps in one hole
 * one sensor can't speak for each.
 */
async function levelFromSensor(
  deps: WebDeps,
  { card }: LiveWell,
  { setDepthM }: PumpCard,
  nowMs: number,
): Promise<PumpFigures['level']> {
  if (setDepthM === undefined || card.pumps.length > 1) return undefined;
  const fromMs = nowMs - RECENT_MS;
  const chart = await wellChart(deps.store, card, {
    channel: 'level',
    fromMs,
    toMs: nowMs,
    points: LEVEL_POINTS,
  });
  const lows = chart.low.filter((value) => value !== null);
  return lows.length === 0 ? undefined : { m: setDepthM - Math.min(...lows), from: 'sensor', atMs: nowMs };
}

function levelFromReading(entries: readonly Entry[], pump: PumpCard, nowMs: number): PumpFigures['level'] {
  const found = entriesOf(entries, 'reading').findLast(
    ({ atMs, body }) =>
      body.what === 'pumping-level' && (body.pump ?? 'p1') === pump.id && nowMs - atMs < LEVEL_MS,
  );
  const read = found && readingSi(found.body);
  return found && read && { m: read.si, from: 'reading', atMs: found.atMs };
}
