/**
 * What is kept, behind one interface: "commit this list of changes" and the queries. A commit is one synchronous transaction:
 * when it returns, everything in it is on disk. There is one test suite for every implementation
 * (tests/contract/store-suite.ts). Never a callback: a list.
 */
import type { AlarmEvent, BaselineEvent, CycleEvent, DayEvent } from '../../shared/api/events.ts';
import type { NoticeRow } from '../notice/notice-row.ts';
import type { Hello } from '../wire/messages.ts';
import type { PlacedPack } from '../readings/placed.ts';

/** An alarm as people see it: one row for its life, from raised to cleared or withdrawn. */
export interface AlarmRow {
  /** `${well}/${pump or '-'}/${alarm}/${since as Unix ms}`: made from what happened, not from a counter. */
  id: string;
  well: string;
  site?: string;
  pump?: string;
  node?: string;
  alarm: string;
  /** Lifecycle state by the standard's names; see src/alarm/lifecycle.ts. */
  state: string;
  sinceMs: number;
  raisedMs: number;
  clearedMs?: number;
  withdrawnMs?: number;
  acknowledgedMs?: number;
  acknowledgedBy?: string;
  shelvedUntilMs?: number;
  /** The last raised or changed line, whole. */
  event: AlarmEvent;
}

/** Born in src/notice/, kept here. */
export type { NoticeRow };

export interface RefusedRow {
  atMs: number;
  topic: string;
  node?: string;
  reason: string;
  detail: string;
  /** The first 512 bytes, base64. */
  head: string;
}

export interface ActRow {
  id: string;
  atMs: number;
  by?: string;
  /** Absent for acts of the whole server. */
  well?: string;
  node?: string;
  kind: string;
  /** The act as it came, as JSON (the card as written). */
  body: unknown;
}

export interface NodeRow {
  node: string;
  /** Serialised node state of src/readings/ (JSON), as of the last save; journal entries after `savedMs` are applied to it. */
  state?: unknown;
  savedMs?: number;
  hello?: Hello;
  /** Waiting until somebody lets it in. */
  letIn: boolean;
  lastHeardMs?: number;
}

export interface CredentialRow {
  node: string;
  /** scrypt: `salt:hash`, base64. */
  secret: string;
  madeMs: number;
  speaksFor: string[];
}

/** A row of cycles, with what only the store and the pages need. */
export interface CycleRow {
  event: CycleEvent;
  startedMs: number;
  stoppedMs: number;
  shape?: { everyS: number; amps: (number | null)[]; kpa: (number | null)[] };
}

export type Change =
  | { change: 'pack'; pack: PlacedPack }
  | { change: 'refused'; row: RefusedRow }
  | { change: 'node'; row: NodeRow }
  | { change: 'credential'; row: CredentialRow }
  | { change: 'credential-removed'; node: string }
  | { change: 'act'; row: ActRow }
  /** Input judged by arrival (node news), kept for later runs. */
  | { change: 'news'; well: string; atMs: number; body: unknown }
  | { change: 'cycle'; row: CycleRow }
  | { change: 'day'; event: DayEvent; endedMs: number }
  | { change: 'baseline'; event: BaselineEvent; atMs: number }
  /** What was derived for this well at or after this time is forgotten: it is about to be made again. */
  | { change: 'forget-derived'; well: string; fromMs: number }
  | { change: 'alarm'; row: AlarmRow }
  | { change: 'notice'; row: NoticeRow }
  /** Engine state of a well at a measured time; the store thins old ones (see SNAPSHOTS). */
  | { change: 'snapshot'; well: string; atMs: number; state: Uint8Array }
  /** From where a well must be run again, because late readings came; `null` when done. */
  | { change: 'rerun-mark'; well: string; fromMs: number | null }
  | { change: 'value'; key: string; value: string | null };

/** Readings of one channel of one node, ordered by time, each (time) once. */
export interface Series {
  n: number;
  timeMs: Float64Array;
  value: Float64Array;
  fault: Uint8Array;
}

/** For a chart: the channel in even steps, each with its lowest, highest and mean; `null` where nothing was measured. */
export interface ChartSeries {
  fromMs: number;
  stepMs: number;
  low: (number | null)[];
  high: (number | null)[];
  mean: (number | null)[];
}

export interface Store {
  /** One synchronous transaction, all or nothing. Throws StoreError with a plain sentence (disk full, corrupt file …). */
  commit(changes: readonly Change[]): void;

  readings(node: string, channel: string, fromMs: number, toMs: number): Series;
  chart(node: string, channel: string, fromMs: number, toMs: number, points: number): ChartSeries;
  channels(node: string): string[];
  /** Every pack since a node's state was saved, in the order they came: for making node state again after a crash. */
  packsSinceSave(): Iterable<PlacedPack>;

  nodes(): NodeRow[];
  credentials(): CredentialRow[];
  acts(since: { well?: string; fromMs: number }): ActRow[];
  news(well: string, fromMs: number): { atMs: number; body: unknown }[];
  cycles(well: string, fromMs: number, toMs: number): CycleRow[];
  days(well: string, fromMs: number, toMs: number): DayEvent[];
  baselines(well: string): BaselineEvent[];
  alarms(filter: { well?: string; fromMs?: number; standing?: boolean }): AlarmRow[];
  notices(filter: { state?: NoticeRow['state']; dueBeforeMs?: number; limit?: number }): NoticeRow[];
  refused(limit: number): { counts: { reason: string; count: number; lastMs: number }[]; last: RefusedRow[] };
  /** The newest snapshot at or before this time. */
  snapshot(well: string, atMs: number): { atMs: number; state: Uint8Array } | undefined;
  rerunMarks(): { well: string; fromMs: number }[];
  value(key: string): string | undefined;

  /** Housekeeping in small bites, called when there is time: seals blocks, thins snapshots, applies retention. Returns whether more waits. */
  tidy(nowMs: number, budgetMs: number): boolean;
  close(): void;
}
