/**
 * What is kept, behind one interface: "commit this list of changes" and the queries. A commit is
 * one transaction: when its promise resolves, everything in it is on disk. Every call answers with
 * a promise, also where the database is in this process and answers at once, so that another
 * database needs no other caller. There is one test suite for every implementation
 * (tests/contract/store-suite.ts). A commit takes a list, never a callback: a transaction is not
 * held open while a caller waits.
 */
import type { BaselineEvent, DayEvent } from '../../shared/api/events.ts';
import type { AlarmRow } from '../core/alarms/lifecycle/alarm-row.ts';
import type { ActRow } from '../core/domain/act-row.ts';
import type { CycleRow } from '../core/cycles/cycle-row.ts';
import type { NoticeRow } from '../core/notify/notice-row.ts';
import type { Hello } from '../core/decode/messages.ts';
import type { Entry } from '../../shared/entries/entry.ts';
import type { PlacedPack } from '../core/readings/placed-pack.ts';

/** Born where they are made, kept here. */
export type { ActRow, AlarmRow, CycleRow, NoticeRow };

export interface RefusedRow {
  atMs: number;
  topic: string;
  node?: string;
  reason: string;
  detail: string;
  /** The first 512 bytes, base64. */
  head: string;
  /** Counted, and not kept for a look: its like is there already. */
  countOnly?: true;
}

export interface NodeRow {
  node: string;
  /**
   * Serialised node state of src/core/readings/ (JSON), as of the last save; journal entries after
   * `savedMs` are applied to it.
   */
  state?: unknown;
  savedMs?: number;
  hello?: Hello;
  /** Waiting until somebody lets it in. */
  approved: boolean;
  lastHeardMs?: number;
  /** Names that a hello spoke for without a right to: how many, and the last sentence. */
  ignored?: { names: number; last: string; lastMs: number };
}

export interface CredentialRow {
  node: string;
  /** scrypt: `salt:hash`, base64. */
  secret: string;
  createdMs: number;
  speaksFor: string[];
  /** May listen to everything under the root, and publish nothing: for recording. */
  listenOnly?: boolean;
}

/**
 * One line of the past of a well as another Stillwell measured and kept it (src/logbook/export/).
 */
export interface ImportedRow {
  well: string;
  /** `well`: nothing but that the well came from elsewhere. */
  kind: 'well' | 'act' | 'baseline' | 'day' | 'cycle' | 'alarm';
  /**
   * What names it among those of its kind and well: the same thing handed over again takes its
   * place.
   */
  key: string;
  /** By what it is found and ordered: a cycle's start, a day's end, an alarm's beginning. */
  atMs: number;
  row: unknown;
}

/** What the engine made of a well, with the times by which it is kept. */
export interface DerivedRows {
  cycles: CycleRow[];
  days: { endedMs: number; event: DayEvent }[];
  baselines: { atMs: number; event: BaselineEvent }[];
}

/** All that is kept of one well, as of one moment. */
export interface WellPast extends DerivedRows {
  /** Also those that name no well. */
  acts: ActRow[];
  entries: Entry[];
  alarms: AlarmRow[];
  imported: ImportedRow[];
}

export type Change =
  | { change: 'pack'; pack: PlacedPack }
  | { change: 'refused'; row: RefusedRow }
  /** Fields that the row leaves out stay as they were. */
  | { change: 'node'; row: NodeRow }
  /** Its row is gone; readings that are kept stay. */
  | { change: 'node-forgotten'; node: string }
  | { change: 'credential'; row: CredentialRow }
  | { change: 'credential-removed'; node: string }
  | { change: 'act'; row: ActRow }
  /** What a person wrote down of a well; the same id is kept once. */
  | { change: 'entry'; entry: Entry }
  /** Of a well's past elsewhere; the newer row of the same key stays. */
  | { change: 'imported'; row: ImportedRow }
  /** Input judged by arrival (node news), kept for later runs. */
  | { change: 'news'; well: string; atMs: number; body: unknown }
  | { change: 'cycle'; row: CycleRow }
  | { change: 'day'; event: DayEvent; endedMs: number }
  | { change: 'baseline'; event: BaselineEvent; atMs: number }
  /**
   * What was derived for this well at or after this time is forgotten: it is about to be made
   * again. Cycles by their stop, days by their end; snapshots only after this time, since the one
   * at it is what the well is run again from. Alarms stay.
   */
  | { change: 'delete-derived'; well: string; fromMs: number }
  | { change: 'alarm'; row: AlarmRow }
  /** Goes forward only: a row that was sent or given up stays so, and `tries` never fall. */
  | { change: 'notice'; row: NoticeRow }
  /** Engine state of a well at a measured time; the store thins old ones (see SNAPSHOTS). */
  | { change: 'snapshot'; well: string; atMs: number; state: Uint8Array }
  /**
   * From where a well must be run again, because late readings came (of two marks the earlier);
   * `null` when done.
   */
  | { change: 'rerun-mark'; well: string; fromMs: number | null }
  | { change: 'setting'; key: string; value: string | null };

/** Readings of one channel of one node, ordered by time, each (time) once. */
export interface Series {
  n: number;
  timeMs: Float64Array;
  value: Float64Array;
  fault: Uint8Array;
}

/**
 * For a chart: the channel in even steps, each with its lowest, highest and mean; `null` where
 * nothing was measured.
 */
export interface ChartSeries {
  fromMs: number;
  stepMs: number;
  low: (number | null)[];
  high: (number | null)[];
  mean: (number | null)[];
}

/** What it holds, for whoever looks into it. */
export interface StoreStats {
  sealedReadings: number;
  /** In memory and in the journal, not yet in blocks. */
  unsealedReadings: number;
  /** Nodes with packs that their saved state does not hold. */
  unsavedNodes: number;
}

export interface Store {
  /**
   * One transaction, all or nothing. Rejects with a StoreError and a plain sentence (disk full,
   * corrupt file …). Commits take effect in the order in which they were called, also where nobody
   * waited for the one before. A query sees every commit that had resolved when it was called, and
   * of a later one all or nothing; queries may answer in another order than they were asked. The
   * list belongs to the store until the promise settles: nobody changes what is in it.
   */
  commit(changes: readonly Change[]): Promise<void>;

  /**
   * From `fromMs` up to, not including, `toMs`. Readings of `start` packs are a channel of their
   * own, `start:current`, and those of which nobody knows the time `untimed:current`. Of several
   * readings of one time: a number before a fault, the smaller number.
   */
  readings(node: string, channel: string, fromMs: number, toMs: number): Promise<Series>;
  /**
   * At most `points` steps; steps of three hours and more are multiples of three hours and begin at
   * 0, 3, 6 … h UTC.
   */
  chart(node: string, channel: string, fromMs: number, toMs: number, points: number): Promise<ChartSeries>;
  /** Time of the first reading of a channel; undefined where there is none. */
  firstReadingMs(node: string, channel: string): Promise<number | undefined>;
  /** Without the `untimed:` ones. */
  channels(node: string): Promise<string[]>;
  /** Times from which a node's clock was overruled (packs with `clockStep`), of [fromMs, toMs). */
  clockSteps(node: string, fromMs: number, toMs: number): Promise<number[]>;
  /**
   * Every pack since a node's state was saved, in the order they came: for making node state again
   * after a crash. A `node` change with a new `savedMs` says: this state holds all packs of the
   * node in earlier commits, and in this one those before it in the list. Until a node's state is
   * saved, its packs stay in the journal; those of a node that was never saved for a day.
   */
  packsSinceSave(): AsyncIterable<PlacedPack>;

  nodes(): Promise<NodeRow[]>;
  credentials(): Promise<CredentialRow[]>;
  /** With `well`: also acts that name no well. */
  acts(since: { well?: string; fromMs: number }): Promise<ActRow[]>;
  /** All that was written down of a well, or of all wells, in the order in which it was written. */
  entries(well?: string): Promise<Entry[]>;
  /** In [fromMs, toMs) by `atMs`, in its order and then by key. Without `well` of all wells. */
  imported(
    kind: ImportedRow['kind'],
    well?: string,
    window?: { fromMs: number; toMs: number },
  ): Promise<ImportedRow[]>;
  /** Names of the wells of which anything was handed over. */
  importedWells(): Promise<string[]>;
  /**
   * Everything of a well, each list oldest first: one query, so that no commit comes between its
   * parts.
   */
  past(well: string): Promise<WellPast>;
  news(well: string, fromMs: number): Promise<{ atMs: number; body: unknown }[]>;
  /** Started in [fromMs, toMs). */
  cycles(well: string, fromMs: number, toMs: number): Promise<CycleRow[]>;
  /** Ended after `fromMs`, and at `toMs` at the latest. */
  days(well: string, fromMs: number, toMs: number): Promise<DayEvent[]>;
  baselines(well: string): Promise<BaselineEvent[]>;
  /** `fromMs`: those that stood at or after it. */
  alarms(filter: { well?: string; fromMs?: number; active?: boolean }): Promise<AlarmRow[]>;
  notices(filter: { state?: NoticeRow['state']; dueBeforeMs?: number; limit?: number }): Promise<NoticeRow[]>;
  refused(
    limit: number,
  ): Promise<{ counts: { reason: string; count: number; lastMs: number }[]; last: RefusedRow[] }>;
  /** The newest snapshot at or before this time. */
  snapshot(well: string, atMs: number): Promise<{ atMs: number; state: Uint8Array } | undefined>;
  rerunMarks(): Promise<{ well: string; fromMs: number }[]>;
  getValue(key: string): Promise<string | undefined>;

  stats(): Promise<StoreStats>;
  /**
   * Housekeeping in small bites, called when there is time: seals blocks, thins snapshots, applies
   * retention. Returns whether more waits.
   */
  maintain(nowMs: number, budgetMs: number): Promise<boolean>;
  /** Resolves once every call made before has settled and the file is free. */
  close(): Promise<void>;
}
