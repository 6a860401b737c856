/**
 * A packet that came -> what to commit, and what to say of it. Nothing that is here is lost or
 * changed: entries and acts are known by their ids, what was measured elsewhere stands apart from
 * what is measured here. Of a well that is watched here only its own past drives the engine: acts
 * from elsewhere are kept as past, and the card here stays. So are calibrations of a node whose
 * name another well here reads from.
 */
import { DAY_MS } from '../../../shared/units/duration.ts';
import { referencedNodes } from '../../logbook/export/referenced-nodes.ts';
import { lastCard, newestMs, type WellRecord } from '../../logbook/export/record.ts';
import type { ActRow, Change, ImportedRow, Store, WellPast } from '../../store/store.ts';
import { actsOf, gatherRecord, hasData } from './gather.ts';
import { alarmKey, baselineKey, cycleKey, dayKey } from './keys.ts';
import { nodesOfOthers } from './other-nodes.ts';
import { startState } from './start-state.ts';
import { texts } from '../texts.ts';

export interface ImportPlan {
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
  sharedNodes: { node: string; well: string }[];
}

/** `confirm`: it can be done if somebody says that the well of this name here is the same one. */
export type ImportPlanResult = ImportPlan | { problem: string; confirm?: 'same' };

export interface ImportParams {
  nowMs: number;
  /** Somebody says that the well of this name is the same one. */
  sameWell: boolean;
}

export async function planImport(
  store: Store,
  record: WellRecord,
  { nowMs, sameWell }: ImportParams,
): Promise<ImportPlanResult> {
  const { well } = record;
  const untilMs = newestMs(record);
  if (untilMs !== undefined && untilMs > nowMs + DAY_MS)
    return {
      problem: texts().exportIsOfTheFuture(new Date(untilMs).toISOString()),
    };
  const foreignId = await idOfAnotherWell(store, record);
  if (foreignId !== undefined) return { problem: texts().isOfAnotherWellHere(foreignId) };
  const past = await store.past(well);
  const here = gatherRecord(well, past);
  const isNew = !(await isKnown(store, here));
  if (!isNew && !sameWell && !hasCommonRows(here, record))
    return {
      problem: texts().thereIsAWellCalled(well),
      confirm: 'same',
    };
  const watched = isWatched(past);
  const added = newRowsOf(record, here);
  const others = await nodesOfOthers(store, well);
  const known = new Set((await store.acts({ fromMs: 0 })).map(({ id }) => id));
  const isHistory = ({ id, kind, node = '' }: ActRow): boolean =>
    watched || (kind === 'calibrated' && others.has(node) && !known.has(id));
  const changes: Change[] = [
    ...added.acts.map((row): Change =>
      isHistory(row) ? importedRow(well, 'act', row.id, row.atMs, row) : { change: 'act', row },
    ),
    ...added.entries.map((entry): Change => ({ change: 'entry', entry })),
    ...derivedChanges(well, added),
    ...alarmChanges(past, record),
    ...(watched || added.acts.length === 0
      ? []
      : startChanges(
          actsOf(well, past.acts),
          well,
          added.acts.filter((row) => !isHistory(row)),
          nowMs,
        )),
    ...(isNew ? [importMark(well)] : []),
  ];
  const card =
    watched && !here.acts.some((act) => act.kind === 'card-changed') ? lastCard(record)?.card : undefined;
  return {
    changes,
    added: {
      acts: added.acts.length,
      entries: added.entries.length,
      baselines: added.baselines.length,
      days: added.days.length,
      cycles: added.cycles.length,
      alarms: added.alarms.length,
    },
    isNew,
    watched,
    sharedNodes: watched ? [] : findSharedNodes(record, others),
    ...(card && { card }),
  };
}

type NewRows = Pick<WellRecord, 'acts' | 'entries' | 'baselines' | 'days' | 'cycles' | 'alarms'>;

/** What the record has and this server has not. */
function newRowsOf(record: WellRecord, here: WellRecord): NewRows {
  return {
    acts: newRows(record.acts, here.acts, ({ id }) => id),
    entries: newRows(record.entries, here.entries, ({ id }) => id),
    baselines: newRows(record.baselines, here.baselines, baselineKey),
    days: newRows(record.days, here.days, dayKey),
    cycles: newRows(record.cycles, here.cycles, cycleKey),
    alarms: newRows(record.alarms, here.alarms, alarmKey),
  };
}

/** What the other server measured and reported, kept apart from this one's. */
function derivedChanges(well: string, added: NewRows): Change[] {
  return [
    ...added.baselines.map((row) => importedRow(well, 'baseline', baselineKey(row), row.atMs, row)),
    ...added.days.map((row) => importedRow(well, 'day', dayKey(row), row.endedMs, row)),
    ...added.cycles.map((row) => importedRow(well, 'cycle', cycleKey(row), row.startedMs, row)),
  ];
}

function findSharedNodes(
  { well: own, acts }: WellRecord,
  others: ReadonlyMap<string, string>,
): ImportPlan['sharedNodes'] {
  const last = acts.findLast(({ kind }) => kind === 'card-changed');
  return [...referencedNodes(own, last ? [last] : [])].flatMap((node) => {
    const well = others.get(node);
    return well === undefined ? [] : [{ node, well }];
  });
}

function importedRow(
  well: string,
  kind: ImportedRow['kind'],
  key: string,
  atMs: number,
  row: unknown,
): Change {
  return { change: 'imported', row: { well, kind, key, atMs, row } };
}

/**
 * That the well came from elsewhere: it is there from now on, though no card and no reading may say
 * so.
 */
function importMark(well: string): Change {
  return importedRow(well, 'well', well, 0, {});
}

function newRows<T>(rows: readonly T[], known: readonly T[], keyOf: (row: T) => string): T[] {
  const keys = new Set(known.map(keyOf));
  return rows.filter((row) => !keys.has(keyOf(row)));
}

/**
 * Entries and acts have one id in the whole world; the same one of another well is a mix-up or a
 * trick.
 */
async function idOfAnotherWell(
  store: Store,
  { well, acts, entries }: WellRecord,
): Promise<string | undefined> {
  const ids = new Set([...acts, ...entries].map(({ id }) => id));
  const known = await store.acts({ fromMs: 0 });
  const act = known.find((row) => row.well !== undefined && row.well !== well && ids.has(row.id));
  if (act) return `act ${act.id}`;
  const entry = (await store.entries()).find((row) => row.well !== well && ids.has(row.id));
  return entry && `entry ${entry.id}`;
}

async function isKnown(store: Store, here: WellRecord): Promise<boolean> {
  const { well, acts, entries, baselines, days, cycles, alarms } = here;
  return (
    [acts, entries, baselines, days, cycles, alarms].some((rows) => rows.length > 0) ||
    (await store.importedWells()).includes(well) ||
    (await store.nodes()).some((row) => row.node === well)
  );
}

function hasCommonRows(here: WellRecord, record: WellRecord): boolean {
  const shares = <T>(a: readonly T[], b: readonly T[], keyOf: (row: T) => string): boolean =>
    newRows(b, a, keyOf).length < b.length;
  return (
    shares(here.acts, record.acts, ({ id }) => id) ||
    shares(here.entries, record.entries, ({ id }) => id) ||
    shares(here.alarms, record.alarms, alarmKey) ||
    shares(here.cycles, record.cycles, cycleKey)
  );
}

/** Its readings come here: something was made of them. */
function isWatched({ cycles, days }: WellPast): boolean {
  return cycles.length > 0 || days.some(({ event }) => hasData(event));
}

/**
 * An alarm that stood in an earlier packet may be over in this one; never the other way round.
 * Those that were told here stay.
 */
function alarmChanges(past: WellPast, { well, alarms }: WellRecord): Change[] {
  const own = new Set(past.alarms.map(alarmKey));
  const known = new Map(
    past.imported.filter(({ kind }) => kind === 'alarm').map(({ key, row }) => [key, lifecycleStage(row)]),
  );
  return alarms
    .filter((row) => !own.has(row.id) && lifecycleStage(row) > (known.get(row.id) ?? -1))
    .map((row) => importedRow(well, 'alarm', row.id, row.sinceMs, row));
}

/** How far an alarm's life has come. */
function lifecycleStage(row: unknown): number {
  const ends = ['clearedMs', 'withdrawnMs', 'acknowledgedMs'];
  return typeof row === 'object' && row !== null ? ends.filter((key) => key in row).length : 0;
}

function startChanges(
  known: readonly ActRow[],
  well: string,
  acts: readonly ActRow[],
  nowMs: number,
): Change[] {
  const all = [...known, ...newRows(acts, known, ({ id }) => id)].toSorted((a, b) => a.atMs - b.atMs);
  const { atMs, state } = startState(well, all, nowMs);
  return [
    { change: 'snapshot', well, atMs, state },
    { change: 'rerun-mark', well, fromMs: atMs + 1 },
  ];
}
