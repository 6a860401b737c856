/**
 * Readings of one thing over the years, against the one that was pinned: then, since, now, and the
 * difference. A thing is what was read, of which pump, and where; the last pinned one is the
 * measure of all after it.
 */
import { omitUndefined } from '../../../shared/omit-undefined.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';
import { normalOf } from '../../core/baseline/robust.ts';
import type { MotorReadingFacts } from '../../../shared/api/figures/motor-readings.ts';
import type { CycleEvent } from '../../../shared/api/events.ts';
import { documentsOf, entriesOf, type Entry, type EntryOf } from '../../../shared/entries/entry.ts';
import { READING_KINDS, READING_DIMENSIONS, type ReadingKind } from '../../../shared/entries/entry-fields.ts';
import { readingSi } from '../entries/read-reading.ts';

type ReadingBody = EntryOf<'reading'>['body'];

export interface ReadingRow {
  id: string;
  atMs: number;
  si: number;
  /** As it was written. */
  value: string;
  by?: string;
  instrument?: string;
  from?: 'hand' | 'sensors';
  text?: string;
  documents: string[];
  pinned: boolean;
  /** Less the pinned one, where that was before it. */
  difference?: number;
  /** What it says by itself. */
  motor?: MotorReadingFacts;
}

/** What the sensors show at present: the last runs. */
export interface RecentReading {
  si: number;
  spread: number;
  count: number;
}

export interface ReadingGroup {
  kind: ReadingKind;
  dimension: Dimension;
  pump?: string;
  location?: string;
  leads?: NonNullable<ReadingBody['leads']>;
  motor?: NonNullable<ReadingBody['motor']>;
  capacitor?: NonNullable<ReadingBody['capacitor']>;
  /** Oldest first. */
  rows: ReadingRow[];
  /** The row that the others are held against. */
  pinnedId?: string;
  recent?: RecentReading;
}

/**
 * `entries` that count; `runs` are the last days' runs of all pumps; `factsOf` says what a reading
 * of a motor shows by itself.
 */
export function readingGroups(
  entries: readonly Entry[],
  runs: readonly CycleEvent[],
  pumps: readonly string[],
  factsOf: (body: ReadingBody) => MotorReadingFacts | undefined = () => undefined,
): ReadingGroup[] {
  const groups = new Map<string, ReadingGroup>();
  for (const entry of entriesOf(entries, 'reading')) {
    const read = readingSi(entry.body);
    if (!read) continue;
    const { where, leads, motor, capacitor } = entry.body;
    const pump =
      entry.body.pump ?? (pumps.length === 1 && PUMP_READINGS.includes(read.what) ? pumps[0] : undefined);
    const key = JSON.stringify([read.what, pump, where?.toLowerCase(), leads, motor, capacitor]);
    const group = groups.get(key) ?? newGroup(read.what, { pump, location: where, leads, motor, capacitor });
    groups.set(key, group);
    group.rows.push(omitUndefined({ ...rowOf(entry, read.si), motor: factsOf(entry.body) }));
  }
  const place = ({ kind }: ReadingGroup): number => READING_KINDS.indexOf(kind);
  return [...groups.values()]
    .map((group) => withDifferences(group, runs))
    .toSorted((a, b) => place(a) - place(b));
}

/** What a run of one pump shows. */
const PUMP_READINGS: readonly ReadingKind[] = ['amps', 'cut-in', 'cut-out', 'fill-time'];
const RUN_VALUES: Partial<Record<ReadingKind, (run: CycleEvent) => number | undefined>> = {
  amps: (run) => run.amps,
  'cut-in': (run) => run.cutInKpa,
  'cut-out': (run) => run.cutOutKpa,
};
/** Fewer runs are no normal of the present. */
const MIN_RECENT_RUNS = 5;

type GroupKey = {
  [K in 'pump' | 'location' | 'leads' | 'motor' | 'capacitor']: ReadingGroup[K] | undefined;
};

function newGroup(what: ReadingKind, key: GroupKey): ReadingGroup {
  return omitUndefined({
    kind: what,
    dimension: READING_DIMENSIONS[what],
    ...key,
    rows: [],
  });
}

function rowOf(entry: EntryOf<'reading'>, si: number): ReadingRow {
  const { id, atMs, by } = entry;
  const { value, from, text, with: instrument, pinned = false } = entry.body;
  const documents = documentsOf(entry);
  return omitUndefined({ id, atMs, si, value, by, instrument, from, text, documents, pinned });
}

function withDifferences(group: ReadingGroup, runs: readonly CycleEvent[]): ReadingGroup {
  const pinned = group.rows.findLast((row) => row.pinned);
  const after = pinned ? group.rows.slice(group.rows.indexOf(pinned) + 1) : [];
  if (pinned) for (const row of after) row.difference = row.si - pinned.si;
  const now = recentReading(group, runs);
  return { ...group, ...(pinned && { pinnedId: pinned.id }), ...(now && { recent: now }) };
}

function recentReading(
  { kind, pump, location }: ReadingGroup,
  runs: readonly CycleEvent[],
): RecentReading | undefined {
  const value = RUN_VALUES[kind];
  // A place of its own is another conductor, gauge or tank than the sensor's.
  if (!value || pump === undefined || location !== undefined) return undefined;
  const values = runs.filter((run) => run.pump === pump).flatMap((run) => value(run) ?? []);
  const normal = values.length >= MIN_RECENT_RUNS ? normalOf(values) : undefined;
  return normal && { si: normal.median, spread: normal.spread, count: normal.n };
}
