/**
 * A well as the checks look at it: its card, what counts of what was written down, acts, alarms
 * that stand, when it was first heard of.
 */
import type { AlarmRow } from '../../core/alarms/lifecycle/alarm-row.ts';
import type { ActRow } from '../../core/domain/act-row.ts';
import { groupBy } from '../../../shared/group-by.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import type { ActSummary, DueInput } from '../../logbook/due/due.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { findColdSeason, type ColdSeason } from '../../logbook/due/cold-season.ts';
import { currentEntries } from '../../../shared/entries/entry.ts';
import { wellChart } from '../well-chart.ts';
import { newestReadings } from '../../logbook/readings/newest-readings.ts';
import type { LiveWell, WebDeps } from '../deps.ts';

/** What the store holds around one well or all of them, by well. */
export interface DueContext {
  actsByWell: ReadonlyMap<string | undefined, readonly ActRow[]>;
  /** Of acts that name a node and no well. */
  actsByNode: ReadonlyMap<string | undefined, readonly ActRow[]>;
  activeAlarmsByWell: ReadonlyMap<string | undefined, readonly ActiveAlarm[]>;
  /** Of this server. */
  wellCount: number;
}

type ActiveAlarm = Pick<AlarmRow, 'well' | 'alarm' | 'sinceMs'>;

export interface WellDueInput extends DueInput {
  /** When anything that it says changed last. */
  changedMs: number;
  /** The first act or entry of the well: unique for ever, also in another Stillwell. */
  firstActId?: string;
}

export async function dueInputFor(deps: WebDeps, live: LiveWell, context: DueContext): Promise<WellDueInput> {
  const { card, normals, sensors } = live;
  const written = await deps.logbook.entries(card.well);
  const own = context.actsByWell.get(card.well) ?? [];
  const nodes = [...new Set(sensors.map(({ node }) => node))];
  const cutIns = card.pumps.flatMap(({ id }) => {
    const baseline = normals.find(({ pump }) => pump === id)?.baseline;
    return newestReadings({ pump: id, baseline: baseline, entries: written })['cut-in']?.si ?? [];
  });
  const firsts = [
    ...own.map(({ id, atMs }) => ({ id, atMs })),
    ...written.map(({ id, createdMs }) => ({ id, atMs: createdMs })),
  ];
  // Of two at one moment the one that was written first, which is how they come.
  const first = firsts.toSorted((a, b) => a.atMs - b.atMs)[0];
  const activeAlarms = context.activeAlarmsByWell.get(card.well) ?? [];
  const changed = [...firsts.map(({ atMs }) => atMs), ...activeAlarms.map(({ sinceMs }) => sinceMs)];
  return {
    card,
    entries: currentEntries(written),
    acts: [...own, ...nodes.flatMap((node) => context.actsByNode.get(node) ?? [])]
      .toSorted((a, b) => a.atMs - b.atMs)
      .map(actSummary),
    // Of several pumps on one tank the lowest: over it the tank would be empty before that pump
    // starts (common practice).
    ...(cutIns.length > 0 && { cutInKpa: Math.min(...cutIns) }),
    nodes,
    activeAlarms,
    ...(first && { firstSeenMs: first.atMs, firstActId: first.id }),
    changedMs: changed.length > 0 ? Math.max(...changed) : deps.startedMs,
    ...(await measuredColdSeason(deps, live)),
    wellCount: context.wellCount,
    nowMs: deps.now(),
  };
}

/** A year and a month: so the beginning of last autumn is in it all year. */
const COLD_SEARCH_DAYS = 400;

/** By the well's own sensor of temperature, where it has one. */
async function measuredColdSeason(
  deps: WebDeps,
  { card, sensors }: LiveWell,
): Promise<{ coldSeason?: ColdSeason }> {
  if (!sensors.some(({ channel }) => channel === 'temperature')) return {};
  const toMs = deps.now();
  const ask = {
    channel: 'temperature',
    fromMs: toMs - COLD_SEARCH_DAYS * DAY_MS,
    toMs,
    points: COLD_SEARCH_DAYS,
  };
  const { fromMs, stepMs, low } = await wellChart(deps.store, card, ask);
  const days = low.flatMap((minC, step) =>
    minC === null ? [] : [{ date: localDate(fromMs + (step + 0.5) * stepMs, card.timeZone), minC }],
  );
  const coldSeason = findColdSeason(days);
  return coldSeason ? { coldSeason } : {};
}

function actSummary({ kind, atMs, well, node, body }: ActRow): ActSummary {
  const held: Record<string, unknown> = typeof body === 'object' && body !== null ? { ...body } : {};
  const untilMs = typeof held['until'] === 'string' ? Date.parse(held['until']) : Number.NaN;
  return {
    kind,
    atMs,
    ...(well !== undefined && { well }),
    ...(node !== undefined && { node }),
    ...(held['newBaseline'] === true && { newBaseline: true }),
    ...(Number.isFinite(untilMs) && { untilMs }),
  };
}

/** What the store holds around one well, or around all. */
export async function loadDueContext(deps: WebDeps, well?: string): Promise<DueContext> {
  const of = well === undefined ? {} : { well };
  const acts = await deps.store.acts({ ...of, fromMs: 0 });
  const alarms = await deps.store.alarms({ ...of, active: true });
  return {
    actsByWell: groupBy(acts, (act) => act.well),
    actsByNode: groupBy(
      acts.filter(({ well }) => well === undefined),
      (act) => act.node,
    ),
    activeAlarmsByWell: groupBy(alarms, (alarm) => alarm.well),
    wellCount: (await deps.live.wells()).length,
  };
}
