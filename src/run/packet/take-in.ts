/**
 * A packet that came -> what to commit, and what to say of it. Nothing that is here is lost or changed: entries and acts are known by their
 * ids, what was measured elsewhere stands apart from what is measured here. Of a well that is watched here only its own past drives the
 * engine: acts from elsewhere are kept as past, and the card here stays. So are calibrations of a node whose name another well here reads from.
 */
import { nodesNamed } from '../../book/packet/nodes-named.ts';
import { knownUntilMs, type WellRecord } from '../../book/packet/record.ts';
import type { ActRow, Change, HandedRow, Store } from '../../store/store.ts';
import { actsOf, gatherRecord, saysSomething } from './gather.ts';
import { alarmKey, baselineKey, cycleKey, dayKey } from './keys.ts';
import { nodesOfOthers } from './other-nodes.ts';
import { startState } from './start-state.ts';

export interface TakeIn {
  changes: Change[];
  /** How many of each were not known here. */
  added: Record<'acts' | 'entries' | 'baselines' | 'days' | 'cycles' | 'alarms', number>;
  /** The well was not known here. */
  isNew: boolean;
  /** It is watched here: its card and engine stay as they are. */
  watched: boolean;
  /** Nobody wrote a card here, and the packet has one: to be taken as a new act. */
  card?: Record<string, unknown>;
  /** Nodes that this well's card reads from and another well here too, with that one. */
  shared: { node: string; well: string }[];
}

/** `asks`: it can be done if somebody says that the well of this name here is the same one. */
export type TakeInResult = TakeIn | { no: string; asks?: 'same' };

export interface TakeInAsked {
  nowMs: number;
  /** Somebody says that the well of this name is the same one. */
  same: boolean;
}

const DAY_MS = 86_400_000;

export function planTakeIn(store: Store, record: WellRecord, { nowMs, same }: TakeInAsked): TakeInResult {
  const { well } = record;
  const untilMs = knownUntilMs(record);
  if (untilMs !== undefined && untilMs > nowMs + DAY_MS)
    return {
      no: `Cannot take packet: it knows of ${new Date(untilMs).toISOString()}, which is still to come. See to the clock of this machine`,
    };
  const elsewhere = idOfAnotherWell(store, record);
  if (elsewhere !== undefined) return { no: `Cannot take packet: ${elsewhere} is of another well here` };
  const here = gatherRecord(store, well);
  const isNew = !isKnown(store, here);
  if (!isNew && !same && !sharesAnything(here, record))
    return {
      no: `There is a well called ${well} here already, and nothing in this packet is known of it. If it is the same well, say so and its past is put together.`,
      asks: 'same',
    };
  const watched = isWatched(store, well);
  const acts = fresh(record.acts, here.acts, ({ id }) => id);
  const entries = fresh(record.entries, here.entries, ({ id }) => id);
  const derived = {
    baselines: fresh(record.baselines, here.baselines, baselineKey),
    days: fresh(record.days, here.days, dayKey),
    cycles: fresh(record.cycles, here.cycles, cycleKey),
    alarms: fresh(record.alarms, here.alarms, alarmKey),
  };
  const others = nodesOfOthers(store, well);
  const known = new Set(store.acts({ fromMs: 0 }).map(({ id }) => id));
  const isPast = ({ id, kind, node = '' }: ActRow): boolean =>
    watched || (kind === 'calibrated' && others.has(node) && !known.has(id));
  const changes: Change[] = [
    ...acts.map((row): Change =>
      isPast(row) ? handed(well, 'act', row.id, row.atMs, row) : { change: 'act', row },
    ),
    ...entries.map((entry): Change => ({ change: 'entry', entry })),
    ...derived.baselines.map((row) => handed(well, 'baseline', baselineKey(row), row.atMs, row)),
    ...derived.days.map((row) => handed(well, 'day', dayKey(row), row.endedMs, row)),
    ...derived.cycles.map((row) => handed(well, 'cycle', cycleKey(row), row.startedMs, row)),
    ...alarmChanges(store, record),
    ...(watched || acts.length === 0
      ? []
      : beginning(
          store,
          well,
          acts.filter((row) => !isPast(row)),
          nowMs,
        )),
    ...(isNew ? [mark(well)] : []),
  ];
  const card =
    watched && !here.acts.some((act) => act.kind === 'card-changed') ? newestCard(record) : undefined;
  return {
    changes,
    added: {
      acts: acts.length,
      entries: entries.length,
      baselines: derived.baselines.length,
      days: derived.days.length,
      cycles: derived.cycles.length,
      alarms: derived.alarms.length,
    },
    isNew,
    watched,
    shared: watched ? [] : sharedNodes(record, others),
    ...(card && { card }),
  };
}

function sharedNodes({ well: own, acts }: WellRecord, others: ReadonlyMap<string, string>): TakeIn['shared'] {
  const last = acts.findLast(({ kind }) => kind === 'card-changed');
  return [...nodesNamed(own, last ? [last] : [])].flatMap((node) => {
    const well = others.get(node);
    return well === undefined ? [] : [{ node, well }];
  });
}

function handed(well: string, kind: HandedRow['kind'], key: string, atMs: number, row: unknown): Change {
  return { change: 'handed', row: { well, kind, key, atMs, row } };
}

/** That the well came from elsewhere: it is there from now on, though no card and no reading may say so. */
function mark(well: string): Change {
  return handed(well, 'well', well, 0, {});
}

function fresh<T>(rows: readonly T[], known: readonly T[], keyOf: (row: T) => string): T[] {
  const keys = new Set(known.map(keyOf));
  return rows.filter((row) => !keys.has(keyOf(row)));
}

/** Entries and acts have one id in the whole world; the same one of another well is a mix-up or a trick. */
function idOfAnotherWell(store: Store, { well, acts, entries }: WellRecord): string | undefined {
  const ids = new Set([...acts, ...entries].map(({ id }) => id));
  const act = store
    .acts({ fromMs: 0 })
    .find((row) => row.well !== undefined && row.well !== well && ids.has(row.id));
  if (act) return `act ${act.id}`;
  const entry = store.entries().find((row) => row.well !== well && ids.has(row.id));
  return entry && `entry ${entry.id}`;
}

function isKnown(store: Store, here: WellRecord): boolean {
  const { well, acts, entries, baselines, days, cycles, alarms } = here;
  return (
    [acts, entries, baselines, days, cycles, alarms].some((rows) => rows.length > 0) ||
    store.handedWells().includes(well) ||
    store.nodes().some((row) => row.node === well)
  );
}

function sharesAnything(here: WellRecord, record: WellRecord): boolean {
  const shares = <T>(a: readonly T[], b: readonly T[], keyOf: (row: T) => string): boolean =>
    fresh(b, a, keyOf).length < b.length;
  return (
    shares(here.acts, record.acts, ({ id }) => id) ||
    shares(here.entries, record.entries, ({ id }) => id) ||
    shares(here.alarms, record.alarms, alarmKey) ||
    shares(here.cycles, record.cycles, cycleKey)
  );
}

/** Its readings come here: something was made of them. */
function isWatched(store: Store, well: string): boolean {
  const own = store.derived(well);
  return own.cycles.length > 0 || own.days.some(({ event }) => saysSomething(event));
}

/** An alarm that stood in an earlier packet may be over in this one; never the other way round. Those that were told here stay. */
function alarmChanges(store: Store, { well, alarms }: WellRecord): Change[] {
  const own = new Set(store.alarms({ well }).map(alarmKey));
  const known = new Map(store.handed('alarm', well).map(({ key, row }) => [key, lifeOf(row)]));
  return alarms
    .filter((row) => !own.has(row.id) && lifeOf(row) > (known.get(row.id) ?? -1))
    .map((row) => handed(well, 'alarm', row.id, row.sinceMs, row));
}

/** How far an alarm's life has come. */
function lifeOf(row: unknown): number {
  const ends = ['clearedMs', 'withdrawnMs', 'acknowledgedMs'];
  return typeof row === 'object' && row !== null ? ends.filter((key) => key in row).length : 0;
}

function beginning(store: Store, well: string, acts: readonly ActRow[], nowMs: number): Change[] {
  const known = actsOf(store, well);
  const all = [...known, ...fresh(acts, known, ({ id }) => id)].toSorted((a, b) => a.atMs - b.atMs);
  const { atMs, state } = startState(well, all, nowMs);
  return [
    { change: 'snapshot', well, atMs, state },
    { change: 'rerun-mark', well, fromMs: atMs + 1 },
  ];
}

function newestCard({ acts }: WellRecord): Record<string, unknown> | undefined {
  const body = acts.findLast((act) => act.kind === 'card-changed')?.body;
  const card = typeof body === 'object' && body !== null && 'card' in body ? body.card : undefined;
  return typeof card === 'object' && card !== null ? { ...card } : undefined;
}
