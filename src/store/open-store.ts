/**
 * The store on SQLite: opens one file, keeps a list of changes in one synchronous transaction,
 * answers queries at once. Readings go the way journal, tail, block (./journal.ts,
 * ./series/seal.ts); the rest are rows (./keep-*.ts).
 */
import { performance } from 'node:perf_hooks';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { requireFolder, openDatabase } from './sqlite/database.ts';
import { sealTails, maintain } from './housekeeping.ts';
import type { Retention } from './expire-rows.ts';
import type { Housekeeping } from './housekeeping.ts';
import { markUnsaved, unsavedPacks } from './journal.ts';
import { encodeJournalRow } from './series/journal-codec.ts';
import { actTable } from './sqlite/act-table.ts';
import { alarmTable } from './sqlite/alarm-table.ts';
import { derivedTable } from './sqlite/derived-table.ts';
import { entryTable } from './sqlite/entry-table.ts';
import { importedTable } from './sqlite/imported-table.ts';
import { nodeTable } from './sqlite/node-table.ts';
import type { SavedPosition } from './sqlite/node-table.ts';
import { refusedTable } from './sqlite/refused-table.ts';
import { snapshotTable } from './sqlite/snapshot-table.ts';
import { acquireLock } from './sqlite/lock.ts';
import type { Lock } from './sqlite/lock.ts';
import { chartSeries, firstReadingMs, readSeries } from './series/read-series.ts';
import { openReadingStore } from './reading-store.ts';
import type { ReadingStore } from './reading-store.ts';
import { StoreError, toStoreError, type StoreAction } from './store-error.ts';
import { newColumns } from './series/columns.ts';
import type { Change, ChartSeries, NodeRow, Series, Store, StoreStats } from './store.ts';
import { UNTIMED_PREFIX, appendToTails } from './series/tails.ts';
import type { SeriesState } from './series/tails.ts';
import type { PlacedPack } from '../core/readings/placed-pack.ts';
import { texts } from './texts.ts';

export interface StoreOptions {
  /**
   * What is older than this is let go of, a batch at a time. Default: readings and cycles for ten
   * years, refused messages for 30 days.
   */
  retention?: Partial<Retention>;
  /**
   * The file may not grow past this; a commit that would needs room first, as on a full disk.
   * Default: what the disk holds.
   */
  maxBytes?: number;
  /**
   * `server` (the default) holds the file's lock, seals and merges. A `secondary` is a short
   * command beside a running server: it reads everything as of its opening, and may change single
   * rows (a credential), but brings no packs and does not tidy.
   */
  role?: 'server' | 'secondary';
}

/**
 * Motors last ten to fifteen years; at 0.5 B a reading, ten years of two channels each 5 s are 63
 * MB a well.
 */
const DEFAULT_RETENTION: Retention = { readingsDays: 3_650, cyclesDays: 3_650, refusedDays: 30 };

/**
 * 17 B each: when housekeeping gets no time for long, a commit seals long tails itself rather than
 * fill the memory.
 */
const MAX_OPEN_READINGS = 4_000_000;

/**
 * Opens the store, making the file where there is none. `:memory:` keeps nothing.
 * @throws StoreError where the file is damaged, from a newer version, in use, or can't be written.
 */
export function openStore(path: string, options: StoreOptions = {}): Store {
  const retention = { ...DEFAULT_RETENTION, ...options.retention };
  for (const [name, days] of Object.entries(retention))
    if (!(days >= 1)) throw new RangeError(`Cannot open the store: ${name} must be 1 or more: ${days}`);
  return new SqliteStore(path, {
    retention,
    role: options.role ?? 'server',
    maxBytes: options.maxBytes ?? Number.POSITIVE_INFINITY,
  });
}

class SqliteStore implements Store {
  #path: string;
  #isSecondary: boolean;
  #lock: Lock | undefined;
  #readingStore: ReadingStore;
  #nodes;
  #acts;
  #derived;
  #entries;
  #imported;
  #alarms;
  #refused;
  #housekeeping: Housekeeping;

  constructor(
    path: string,
    { retention, role, maxBytes }: Required<StoreOptions> & { retention: Retention },
  ) {
    this.#path = path;
    this.#isSecondary = role === 'secondary';
    requireFolder(path);
    this.#lock = this.#isSecondary || path === ':memory:' ? undefined : acquireLock(path);
    try {
      const db = openDatabase(path, maxBytes);
      const orm = drizzle(db);
      this.#nodes = nodeTable(orm);
      this.#acts = actTable(orm);
      this.#derived = derivedTable(orm);
      this.#entries = entryTable(orm);
      this.#imported = importedTable(orm);
      this.#alarms = alarmTable(orm);
      this.#refused = refusedTable(orm);
      this.#readingStore = openReadingStore(db, path, this.#nodes.savedPositions());
      const snapshots = snapshotTable(db);
      this.#housekeeping = {
        readingStore: this.#readingStore,
        snapshots,
        retention,
        snapshotsSinceThinning: new Map(),
        nextExpiryMs: 0,
      };
    } catch (error) {
      this.#lock?.release();
      throw toStoreError('open', path, error);
    }
  }

  commit(changes: readonly Change[]): Promise<void> {
    return this.#answer('save', () => this.#commit(changes));
  }

  #commit(changes: readonly Change[]): void {
    const packs: PlacedPack[] = [];
    for (const change of changes) if (change.change === 'pack') packs.push(change.pack);
    if (this.#isSecondary && packs.length > 0) {
      throw new StoreError(
        'invalid-use',
        texts().cannot({ action: texts().actions.save, reason: texts().onlyServerSaves }),
      );
    }
    const { journal, db } = this.#readingStore;
    const row = packs.length > 0 ? journal.lastRow + 1 : journal.lastRow;
    const body = packs.length > 0 ? encodeJournalRow(packs) : undefined;
    const places = db.transaction(() => {
      if (body) journal.insert(row, body);
      return this.#applyAll(changes, row, packs.length > 0);
    })();
    journal.lastRow = row;
    this.#updateMemory(changes, row, places);
    if (this.#readingStore.unsealedReadings > MAX_OPEN_READINGS) this.#sealLongestTails();
  }

  /**
   * Writes the rows, in order. Returns how far the states of nodes reach that are newer than what
   * was saved.
   */
  #applyAll(changes: readonly Change[], row: number, hasRow: boolean): Map<NodeRow, SavedPosition> {
    const refused = [];
    const places = new Map<NodeRow, SavedPosition>();
    let packs = 0;
    for (const change of changes) {
      if (change.change === 'refused') refused.push(change.row);
      else if (change.change === 'pack') {
        packs += 1;
        if (change.pack.clockStep) this.#insertClockStep(change.pack);
      } else if (change.change === 'node') {
        // Without packs in this commit the state holds everything up to the last row, whole.
        const place = hasRow ? { row, packs } : { row, packs: Number.MAX_SAFE_INTEGER };
        if (this.#nodes.put(change.row, place)) places.set(change.row, place);
      } else this.#apply(change);
    }
    if (refused.length > 0) this.#refused.putRefused(refused);
    return places;
  }

  /** What memory must know once the commit is on the disk, in the order of the list. */
  #updateMemory(changes: readonly Change[], row: number, places: ReadonlyMap<NodeRow, SavedPosition>): void {
    const { journal, series } = this.#readingStore;
    for (const change of changes) {
      if (change.change === 'pack') {
        this.#readingStore.unsealedReadings += appendToTails(series, change.pack, row);
        markUnsaved(journal, change.pack, row);
      } else if (change.change === 'node') {
        const place = places.get(change.row);
        if (!place) continue;
        journal.savedPositions.set(change.row.node, place);
        journal.firstUnsaved.delete(change.row.node);
      } else if (change.change === 'node-forgotten') {
        journal.savedPositions.delete(change.node);
        journal.firstUnsaved.delete(change.node);
      }
    }
  }

  #insertClockStep(pack: PlacedPack): void {
    const put = this.#readingStore.db.prepare('INSERT OR IGNORE INTO clock_step (node, at_ms) VALUES (?, ?)');
    // Each channel begins anew with its own first reading.
    for (const { times } of pack.columns) if (times.length > 0) put.run(pack.node, times[0]);
  }

  #apply(change: Exclude<Change, { change: 'pack' | 'refused' | 'node' }>): void {
    switch (change.change) {
      case 'node-forgotten':
        return this.#nodes.remove(change.node);
      case 'credential':
        return this.#nodes.putCredential(change.row);
      case 'credential-removed':
        return this.#nodes.removeCredential(change.node);
      case 'act':
        return this.#acts.put(change.row);
      case 'entry':
        return this.#entries.put(change.entry);
      case 'imported':
        return this.#imported.put(change.row);
      case 'news':
        return this.#acts.putNews(change.well, change.atMs, change.body);
      case 'cycle':
        return this.#derived.putCycle(change.row);
      case 'day':
        return this.#derived.putDay(change.event, change.endedMs);
      case 'baseline':
        return this.#derived.putBaseline(change.event, change.atMs);
      case 'delete-derived':
        this.#derived.deleteFrom(change.well, change.fromMs);
        return this.#housekeeping.snapshots.deleteAfter(change.well, change.fromMs);
      case 'alarm':
        return this.#alarms.put(change.row);
      case 'notice':
        return this.#alarms.putNotice(change.row);
      case 'snapshot':
        this.#housekeeping.snapshotsSinceThinning.set(
          change.well,
          (this.#housekeeping.snapshotsSinceThinning.get(change.well) ?? 0) + 1,
        );
        return this.#housekeeping.snapshots.put(change.well, change.atMs, change.state);
      case 'rerun-mark':
        return this.#acts.setRerunMark(change.well, change.fromMs);
      case 'setting':
        return this.#acts.putValue(change.key, change.value);
      default:
        return change satisfies never;
    }
  }

  #sealLongestTails(): void {
    const states = [...this.#readingStore.series.values()].flatMap((channels) => [...channels.values()]);
    states.sort((a, b) => (b.tail?.n ?? 0) - (a.tail?.n ?? 0));
    try {
      sealTails(this.#readingStore, states.slice(0, Math.ceil(states.length / 4)));
    } catch (error) {
      // The commit is on the disk, so it must not be said to have failed; housekeeping meets the
      // same fault and tells it.
      if (!(toStoreError('compress', this.#path, error) instanceof StoreError)) throw error;
    }
  }

  /**
   * Runs an action at once, whole, and answers with a promise; what goes wrong in the world rejects
   * it with a StoreError.
   */
  async #answer<T>(action: StoreAction, run: () => T): Promise<T> {
    try {
      return run();
    } catch (error) {
      throw toStoreError(action, this.#path, error);
    }
  }

  readings(node: string, channel: string, fromMs: number, toMs: number): Promise<Series> {
    return this.#answer('readReadings', () => {
      const state = this.#seriesOf(node, channel);
      return state ? readSeries(state, this.#readingStore.blocks, fromMs, toMs) : newColumns(0);
    });
  }

  chart(node: string, channel: string, fromMs: number, toMs: number, points: number): Promise<ChartSeries> {
    return this.#answer('readChart', () =>
      chartSeries(this.#seriesOf(node, channel), this.#readingStore.blocks, { fromMs, toMs, points }),
    );
  }

  firstReadingMs(node: string, channel: string): Promise<number | undefined> {
    return this.#answer('readReadings', () => {
      const state = this.#seriesOf(node, channel);
      return state && firstReadingMs(state, this.#readingStore.blocks);
    });
  }

  #seriesOf(node: string, channel: string): SeriesState | undefined {
    return this.#readingStore.series.get(node)?.get(channel);
  }

  channels(node: string): Promise<string[]> {
    return this.#answer('readChannels', () => {
      const names = [...(this.#readingStore.series.get(node)?.keys() ?? [])];
      return names.filter((name) => !name.startsWith(UNTIMED_PREFIX)).sort();
    });
  }

  clockSteps(node: string, fromMs: number, toMs: number): Promise<number[]> {
    return this.#answer('readClockSteps', () =>
      this.#readingStore.db
        .prepare<[string, number, number], number>(
          'SELECT at_ms FROM clock_step WHERE node = ? AND at_ms >= ? AND at_ms < ? ORDER BY at_ms',
        )
        .pluck()
        .all(node, fromMs, toMs),
    );
  }

  async *packsSinceSave(): AsyncIterable<PlacedPack> {
    yield* unsavedPacks(this.#readingStore.journal);
  }

  nodes = () => this.#answer('readNodes', () => this.#nodes.list());
  credentials = () => this.#answer('readCredentials', () => this.#nodes.credentials());
  acts = (since: Parameters<Store['acts']>[0]) => this.#answer('readActs', () => this.#acts.list(since));
  entries = (well?: string) => this.#answer('readEntries', () => this.#entries.list(well));
  imported = (...args: Parameters<Store['imported']>) =>
    this.#answer('readImported', () => this.#imported.list(...args));
  importedWells = () => this.#answer('readImported', () => this.#imported.wells());
  past = (well: string) =>
    this.#answer('readPast', () => ({
      ...this.#derived.all(well),
      acts: this.#acts.list({ well, fromMs: 0 }),
      entries: this.#entries.list(well),
      alarms: this.#alarms.list({ well }),
      imported: this.#imported.past(well),
    }));
  news = (well: string, fromMs: number) => this.#answer('readNews', () => this.#acts.news(well, fromMs));
  cycles = (well: string, fromMs: number, toMs: number) =>
    this.#answer('readCycles', () => this.#derived.cycles(well, fromMs, toMs));
  days = (well: string, fromMs: number, toMs: number) =>
    this.#answer('readDays', () => this.#derived.days(well, fromMs, toMs));
  baselines = (well: string) => this.#answer('readBaselines', () => this.#derived.baselines(well));
  alarms = (filter: Parameters<Store['alarms']>[0]) =>
    this.#answer('readAlarms', () => this.#alarms.list(filter));
  notices = (filter: Parameters<Store['notices']>[0]) =>
    this.#answer('readNotices', () => this.#alarms.notices(filter));
  refused = (limit: number) => this.#answer('readRefused', () => this.#refused.refused(limit));
  snapshot = (well: string, atMs: number) =>
    this.#answer('readSnapshot', () => this.#housekeeping.snapshots.find(well, atMs));
  rerunMarks = () => this.#answer('readMarks', () => this.#acts.rerunMarks());
  getValue = (key: string) => this.#answer('readValue', () => this.#acts.getValue(key));

  stats(): Promise<StoreStats> {
    return this.#answer('measure', () => {
      const { journal, unsealedReadings, sealedReadings } = this.#readingStore;
      return {
        sealedReadings,
        unsealedReadings,
        unsavedNodes: journal.firstUnsaved.size,
      };
    });
  }

  maintain(nowMs: number, budgetMs: number): Promise<boolean> {
    return this.#answer('maintain', () =>
      this.#isSecondary ? false : maintain(this.#housekeeping, nowMs, budgetMs, () => performance.now()),
    );
  }

  close(): Promise<void> {
    return this.#answer('close', () => {
      const { db } = this.#readingStore;
      if (!db.open) return;
      db.close();
      this.#lock?.release();
    });
  }
}
