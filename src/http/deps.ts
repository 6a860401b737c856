/**
 * What the pages and the API need from the rest, and nothing more: the store's queries (any
 * implementation of the store fits), what the run loop knows at this moment, and the few things
 * that a person can do. The run loop hands in one value of `WebDeps`.
 */
import type { WrittenAct } from '../../shared/acts/act-fields.ts';
import type { BaselineEvent, DayEvent } from '../../shared/api/events.ts';
import type { Answer } from '../../shared/api/routes.ts';
import type { LoopDelayAnswer, RefusedAnswer } from '../../shared/api/server-state.ts';
import type { WellStatus } from '../../shared/api/wells.ts';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import type { WatchAnswer } from '../core/alarms/lifecycle/last-evaluations.ts';
import type { AlarmRow } from '../core/alarms/lifecycle/alarm-row.ts';
import type { Baseline } from '../core/baseline/baseline.ts';
import type { Entry, EntryOf } from '../../shared/entries/entry.ts';
import type { ActRow } from '../core/domain/act-row.ts';
import type { Card } from '../core/domain/card.ts';
import type { CycleRow } from '../core/cycles/cycle-row.ts';
import type { Check } from '../core/alarms/first-hour/first-checks.ts';
import type { NoticeRow } from '../core/notify/notice-row.ts';
import type { Hello } from '../core/decode/messages.ts';
import type { MetricFamily } from './metrics.ts';

export interface StoredChart {
  fromMs: number;
  stepMs: number;
  low: (number | null)[];
  high: (number | null)[];
  mean: (number | null)[];
}

export interface StoredAlarm extends AlarmRow {
  /** Told by the Stillwell that watched the well before: nobody here knows how it goes on. */
  imported?: true;
}

export interface StoredNode {
  node: string;
  hello?: Hello;
  approved: boolean;
  lastHeardMs?: number;
  ignored?: { names: number; last: string; lastMs: number };
}

export type StoredNotice = NoticeRow;

/**
 * The part of the store that is read here; all that it answers is kept. An answer put together from
 * several queries may span a commit. Readings are in the wire's units.
 */
export interface WebStore {
  chart(node: string, channel: string, fromMs: number, toMs: number, points: number): Promise<StoredChart>;
  nodes(): Promise<StoredNode[]>;
  acts(since: { well?: string; fromMs: number }): Promise<ActRow[]>;
  cycles(well: string, fromMs: number, toMs: number): Promise<CycleRow[]>;
  days(well: string, fromMs: number, toMs: number): Promise<DayEvent[]>;
  baselines(well: string): Promise<BaselineEvent[]>;
  alarms(filter: { well?: string; fromMs?: number; active?: boolean }): Promise<StoredAlarm[]>;
  notices(filter: { state?: StoredNotice['state']; limit?: number }): Promise<StoredNotice[]>;
  refused(limit: number): Promise<Omit<RefusedAnswer, 'nowMs'>>;
}

/** One channel of a well, as the readings stand now. */
export interface SensorStatus {
  channel: string;
  node: string;
  lastMs?: number;
  fault?: 'low' | 'high' | 'bad';
  /** The calibration in force: true = gain x read + offset, in the wire's unit. */
  correction?: { gain: number; offset: number };
}

/** A well with what only its own page needs. */
export interface LiveWell {
  status: WellStatus;
  card: Card;
  sensors: SensorStatus[];
  /** Do clamp, transducer, switch, tank and card agree? */
  checks: Check[];
  /** What the watch of each kind of alarm said last. */
  evaluations: WatchAnswer[];
  /** What is normal for each pump at present, where that is known. */
  normals: { pump: string; baseline: Baseline }[];
  /** What was normal before the last visit that began a new one. */
  previousNormals: { pump: string; baseline: Baseline }[];
}

/**
 * What changed just now. Readings are in the wire's units, NaN where the sensor could not be read.
 */
export type LiveChange =
  | { is: 'readings'; well: string; columns: readonly LiveReadings[] }
  | { is: 'well'; well: string }
  | { is: 'alarm'; alarm: StoredAlarm };

export interface LiveReadings {
  /** The well's channel name. */
  channel: string;
  timesMs: ArrayLike<number>;
  values: ArrayLike<number>;
}

/** What it tells is committed: whoever asks in the middle of a turn waits for its end. */
interface Live {
  wells(): Promise<WellStatus[]>;
  well(name: string): Promise<LiveWell | undefined>;
  /**
   * Calls `fn` for each change until the returned function is called. Subscribed to only while
   * somebody looks.
   */
  subscribe(fn: (change: LiveChange) => void): () => void;
}

/** `problem` is an answer, not a fault: the sentence says which rule the act breaks. */
export type ActResult = { done: true; atMs: number } | { problem: string };
type ApprovalResult = { done: true; credential?: string } | { problem: string };

export type EntryResult = { entry: Entry } | { problem: string };
export type DocumentResult = { entry: EntryOf<'paper'> } | { problem: string };

/** Where people write down what they know of a well. */
export interface LogbookService {
  /** All of a well, in the order in which they were written. */
  entries(well: string): Promise<Entry[]>;
  /** An entry as it was written (src/logbook/entries/read-entry.ts), with its `well`. */
  write(json: unknown, by?: string): Promise<EntryResult>;
  addDocument(
    well: string,
    document: { bytes: Uint8Array; name: string; about?: string; text?: string; by?: string },
  ): Promise<DocumentResult>;
  document(hash: string): { bytes: Uint8Array; type: string } | undefined;
  /** Whether there is such a paper; of its bytes nothing is read. */
  hasDocument(hash: string): boolean;
  /** The act that wrote the card as it now is. */
  writtenCard(well: string): Promise<ActRow | undefined>;
}

/**
 * `confirm`: it is done when it is asked again by somebody who says that the well of this name here
 * is the same one.
 */
export type ImportResult = { problem: string; confirm?: 'same' } | Answer<'importWell'>;
/** How many of each an import brought that were not known here. */
export type ImportCounts = Answer<'importWell'>['added'];

/**
 * All that is known of a well, to be handed over, and what was handed over to us
 * (src/logbook/export/).
 */
export interface WellExports {
  /** The ZIP in pieces. Units are those of the card where none are named. */
  zip(well: string, units?: UnitSystem): Promise<Iterable<Uint8Array>>;
  /** The page alone. */
  page(well: string, units?: UnitSystem): Promise<string>;
  /** `bytes` are handed over: nobody may use them afterwards. */
  importFile(bytes: Uint8Array, how: { sameWell: boolean; by?: string }): Promise<ImportResult>;
}

/**
 * Where phones reach the calendar. `hosts` are addresses of this computer on its networks; `error`
 * a sentence.
 */
export type CalendarServerState =
  { is: 'open'; port: number; hosts: string[] } | { is: 'closed'; hosts: string[]; error?: string };

/**
 * What lets phones on the farm's network read the calendar of all wells, or of one
 * (./calendar-at-path.ts).
 */
export interface CalendarAccess {
  serverState(): CalendarServerState;
  /** The secret part of the address, and when it was made; undefined where nobody made one. */
  secret(well: string | undefined): Promise<{ text: string; createdMs: number } | undefined>;
  /** Whether this is the secret; takes as long for a wrong one. */
  isValidSecret(secret: string, well: string | undefined): Promise<boolean>;
  /** Makes a secret where there is none. */
  ensure(well: string | undefined): Promise<void>;
  /** Makes a secret; the one before opens nothing any more. */
  renew(well: string | undefined): Promise<void>;
  revoke(well: string | undefined): Promise<void>;
}

export interface WebDeps {
  store: WebStore;
  logbook: LogbookService;
  calendarAccess: CalendarAccess;
  exports: WellExports;
  live: Live;
  /**
   * Does what a person asked for; the act is written as the contract writes it, and its time is
   * now. `refuse` is asked when nothing else can come between its answer and the act; it says why
   * the act is not to be done.
   */
  act(act: WrittenAct, by?: string, refuse?: () => Promise<string | undefined>): Promise<ActResult>;
  approveNode(node: string): Promise<ApprovalResult>;
  /** Forgets a node with its empty well. Returns why not, in a sentence. */
  forget(node: string): Promise<string | undefined>;
  metrics(): Promise<MetricFamily[]>;
  /** What is wrong with the server itself, a sentence each; empty where all is well. */
  healthProblems(): string[];
  /** How late the server came to what was due; undefined before the first sample. */
  loopDelay(): LoopDelayAnswer | undefined;
  /** A fault of our own in answering: to be logged and counted. */
  onError(error: unknown): void;
  version: string;
  /**
   * What a command needs to find the data of this server, such as ` --data /srv/wells`; absent if
   * nothing.
   */
  commandOptions?: string;
  startedMs: number;
  now(): number;
}
