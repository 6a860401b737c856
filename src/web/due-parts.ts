/** A well as the checks look at it: its card, what counts of what was written down, acts, alarms that stand, when it was first heard of. */
import type { DoneAct, DueInput } from '../book/due.ts';
import { localDate } from '../../shared/api/time-words.ts';
import { coldSeason, type ColdSeason } from '../book/cold-season.ts';
import { currentEntries } from '../book/entry.ts';
import { wellChart } from './sources.ts';
import { newestReadings } from '../book/newest-readings.ts';
import type { LiveWell, StoredAct, WebDeps } from './deps.ts';

/** `acts` may be those of many wells; `standing` too. */
export interface Around {
  acts: readonly StoredAct[];
  standing: readonly { well?: string; alarm: string; sinceMs: number }[];
}

export interface DueWell extends DueInput {
  /** When anything that it says changed last. */
  changedMs: number;
  /** The first act or entry of the well: unique for ever, also in another Stillwell. */
  root?: string;
}

export function dueWell(deps: WebDeps, live: LiveWell, around: Around): DueWell {
  const { card, usual, sensors } = live;
  const written = deps.desk.entries(card.well);
  const own = around.acts.filter(({ well }) => well === card.well);
  const nodes = [...new Set(sensors.map(({ node }) => node))];
  const cutIns = card.pumps.flatMap(({ id }) => {
    const baseline = usual.find(({ pump }) => pump === id)?.baseline;
    return newestReadings({ pump: id, usual: baseline, entries: written })['cut-in']?.si ?? [];
  });
  const firsts = [
    ...own.map(({ id, atMs }) => ({ id, atMs })),
    ...written.map(({ id, madeMs }) => ({ id, atMs: madeMs })),
  ];
  // Of two at one moment the one that was written first, which is how they come.
  const first = firsts.toSorted((a, b) => a.atMs - b.atMs)[0];
  const standing = around.standing.filter(({ well }) => well === card.well);
  const changed = [...firsts.map(({ atMs }) => atMs), ...standing.map(({ sinceMs }) => sinceMs)];
  return {
    card,
    entries: currentEntries(written),
    acts: around.acts
      .filter(({ well, node }) => well === card.well || (node !== undefined && nodes.includes(node)))
      .map(doneAct),
    // Of several pumps on one tank the lowest: over it the tank would be empty before that pump starts (common practice).
    ...(cutIns.length > 0 && { cutInKpa: Math.min(...cutIns) }),
    nodes,
    standing,
    ...(first && { firstMs: first.atMs, root: first.id }),
    changedMs: changed.length > 0 ? Math.max(...changed) : deps.startedMs,
    ...coldHere(deps, live),
    wells: deps.live.wells().length,
    nowMs: deps.now(),
  };
}

const DAY_MS = 86_400_000;
/** A year and a month: so the beginning of last autumn is in it all year. */
const COLD_DAYS = 400;

/** By the well's own sensor of temperature, where it has one. */
function coldHere(deps: WebDeps, { card, sensors }: LiveWell): { cold?: ColdSeason } {
  if (!sensors.some(({ channel }) => channel === 'temperature')) return {};
  const toMs = deps.now();
  const ask = { channel: 'temperature', fromMs: toMs - COLD_DAYS * DAY_MS, toMs, points: COLD_DAYS };
  const { fromMs, stepMs, low } = wellChart(deps.store, card, ask);
  const days = low.flatMap((lowC, step) =>
    lowC === null ? [] : [{ on: localDate(fromMs + (step + 0.5) * stepMs, card.timeZone), lowC }],
  );
  const cold = coldSeason(days);
  return cold ? { cold } : {};
}

function doneAct({ kind, atMs, well, node, body }: StoredAct): DoneAct {
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
export function aroundWells(deps: WebDeps, well?: string): Around {
  const of = well === undefined ? {} : { well };
  return {
    acts: deps.store.acts({ ...of, fromMs: 0 }),
    standing: deps.store.alarms({ ...of, standing: true }),
  };
}
