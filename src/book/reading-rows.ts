/**
 * Readings of one thing over the years, against the one that was pinned: then, since, now, and the difference. A thing is what was read,
 * of which pump, and where; the last pinned one is the measure of all after it.
 */
import type { Dimension } from '../../shared/quantity/units.ts';
import { normalOf } from '../baseline/robust.ts';
import type { CycleEvent } from '../../shared/api/events.ts';
import type { KeptEntry } from './entry.ts';
import { READING_WHATS, READINGS, readingSi, type ReadingWhat } from './read-reading.ts';

export interface ReadingRow {
  id: string;
  atMs: number;
  si: number;
  /** As it was written. */
  value: string;
  by?: string;
  with?: string;
  from?: 'hand' | 'sensors';
  text?: string;
  papers: string[];
  pinned: boolean;
  /** Less the pinned one, where that was before it. */
  apart?: number;
}

/** What the sensors show at present: the last runs. */
export interface ReadingNow {
  si: number;
  spread: number;
  n: number;
}

export interface ReadingGroup {
  what: ReadingWhat;
  dimension: Dimension;
  pump?: string;
  where?: string;
  /** Oldest first. */
  rows: ReadingRow[];
  /** The row that the others are held against. */
  pinnedId?: string;
  now?: ReadingNow;
}

/** `entries` that count; `runs` are the last days' runs of all pumps. */
export function readingGroups(
  entries: readonly KeptEntry[],
  runs: readonly CycleEvent[],
  pumps: readonly string[],
): ReadingGroup[] {
  const groups = new Map<string, ReadingGroup>();
  for (const entry of entries) {
    const read = entry.kind === 'reading' ? readingSi(entry.body) : undefined;
    if (!read) continue;
    const pump =
      textOf(entry, 'pump') ?? (pumps.length === 1 && OF_PUMP.includes(read.what) ? pumps[0] : undefined);
    const where = textOf(entry, 'where');
    const key = JSON.stringify([read.what, pump, where?.toLowerCase()]);
    const group = groups.get(key) ?? newGroup(read.what, pump, where);
    groups.set(key, group);
    group.rows.push(rowOf(entry, read.si));
  }
  const place = ({ what }: ReadingGroup): number => READING_WHATS.indexOf(what);
  return [...groups.values()].map((group) => held(group, runs)).toSorted((a, b) => place(a) - place(b));
}

/** What a run of one pump shows. */
const OF_PUMP: readonly ReadingWhat[] = ['amps', 'cut-in', 'cut-out', 'fill-time'];
const RUN: Partial<Record<ReadingWhat, (run: CycleEvent) => number | undefined>> = {
  amps: (run) => run.amps,
  'cut-in': (run) => run.cutInKpa,
  'cut-out': (run) => run.cutOutKpa,
};
/** Fewer runs are no normal of the present. */
const RUNS_FOR_NOW = 5;

function newGroup(what: ReadingWhat, pump: string | undefined, where: string | undefined): ReadingGroup {
  return {
    what,
    dimension: READINGS[what],
    ...(pump !== undefined && { pump }),
    ...(where !== undefined && { where }),
    rows: [],
  };
}

function rowOf(entry: KeptEntry, si: number): ReadingRow {
  const [used, text] = [textOf(entry, 'with'), textOf(entry, 'text')];
  const { from, papers } = entry.body;
  return {
    id: entry.id,
    atMs: entry.atMs,
    si,
    value: String(entry.body['value']),
    ...(entry.by !== undefined && { by: entry.by }),
    ...(used !== undefined && { with: used }),
    ...((from === 'hand' || from === 'sensors') && { from }),
    ...(text !== undefined && { text }),
    papers: Array.isArray(papers) ? papers.filter((hash) => typeof hash === 'string') : [],
    pinned: entry.body['pinned'] === true,
  };
}

function held(group: ReadingGroup, runs: readonly CycleEvent[]): ReadingGroup {
  const pinned = group.rows.findLast((row) => row.pinned);
  const after = pinned ? group.rows.slice(group.rows.indexOf(pinned) + 1) : [];
  if (pinned) for (const row of after) row.apart = row.si - pinned.si;
  const now = nowOf(group, runs);
  return { ...group, ...(pinned && { pinnedId: pinned.id }), ...(now && { now }) };
}

function nowOf({ what, pump, where }: ReadingGroup, runs: readonly CycleEvent[]): ReadingNow | undefined {
  const value = RUN[what];
  // A place of its own is another conductor, gauge or tank than the sensor's.
  if (!value || pump === undefined || where !== undefined) return undefined;
  const values = runs.filter((run) => run.pump === pump).flatMap((run) => value(run) ?? []);
  const normal = values.length >= RUNS_FOR_NOW ? normalOf(values) : undefined;
  return normal && { si: normal.median, spread: normal.spread, n: normal.n };
}

function textOf({ body }: KeptEntry, key: string): string | undefined {
  const value = body[key];
  return typeof value === 'string' && value !== '' ? value : undefined;
}
