/**
 * All that is known of one well, as it is handed over: what people wrote and did, and what was
 * measured and told. As text it is one JSON line each (NDJSON), in an order that follows from the
 * content alone, so that the same knowledge is the same bytes wherever it is written. The first
 * line says which format, the last how many lines and their hash: a half is noticed.
 */
import { cardIn } from '../../../shared/card/changes.ts';
import type { BaselineEvent, DayEvent } from '../../../shared/api/events.ts';
import type { AlarmRow } from '../../core/alarms/lifecycle/alarm-row.ts';
import type { ActRow } from '../../core/domain/act-row.ts';
import type { CycleRow } from '../../core/cycles/cycle-row.ts';
import { documentsOf, type Entry } from '../../../shared/entries/entry.ts';

/** Raised whenever a reader of the version before could misread what is written. */
export const RECORD_VERSION = 1;

export interface WellRecord {
  well: string;
  acts: ActRow[];
  entries: Entry[];
  baselines: { atMs: number; event: BaselineEvent }[];
  days: { endedMs: number; event: DayEvent }[];
  cycles: CycleRow[];
  alarms: AlarmRow[];
}

/**
 * SHA-256 of the bytes in lower-case hex; given from outside, since the core reaches no library of
 * the machine.
 */
export type Sha256 = (bytes: Uint8Array) => string;

/** The lines with their ends, UTF-8 when written out. */
export function serializeRecord(record: WellRecord, sha256: Sha256): string {
  const lines = [
    { is: 'stillwell-record', version: RECORD_VERSION, well: record.well },
    ...record.acts.map((row) => ({ is: 'act', row })),
    ...record.entries.map((row) => ({ is: 'entry', row })),
    ...record.baselines.map((row) => ({ is: 'baseline', row })),
    ...record.days.map((row) => ({ is: 'day', row })),
    ...record.cycles.map((row) => ({ is: 'cycle', row })),
    ...record.alarms.map((row) => ({ is: 'alarm', row })),
  ];
  const text = lines.map((line) => `${JSON.stringify(line)}\n`).join('');
  const end = { is: 'end', lines: lines.length, sha256: sha256(new TextEncoder().encode(text)) };
  return `${text}${JSON.stringify(end)}\n`;
}

/**
 * The newest moment that the record knows of, Unix ms. A packet is dated by this and not by the
 * clock, so that handing over the same knowledge twice makes the same packet. Undefined where
 * nothing is known.
 */
export function newestMs(record: WellRecord): number | undefined {
  let newest = Number.NEGATIVE_INFINITY;
  const see = (ms: number | undefined): void => {
    if (ms !== undefined && ms > newest) newest = ms;
  };
  for (const act of record.acts) see(act.atMs);
  for (const entry of record.entries) see(entry.createdMs);
  for (const row of record.baselines) see(row.atMs);
  for (const row of record.days) see(row.endedMs);
  for (const row of record.cycles) see(row.stoppedMs);
  for (const row of record.alarms)
    for (const ms of [row.raisedMs, row.clearedMs, row.withdrawnMs, row.acknowledgedMs]) see(ms);
  return newest === Number.NEGATIVE_INFINITY ? undefined : newest;
}

/** The card as it was written last. */
export function lastCard(record: WellRecord): { act: ActRow; card: Record<string, unknown> } | undefined {
  const act = record.acts.findLast((row) => row.kind === 'card-changed' && row.well === record.well);
  return act && { act, card: cardIn(act.body) };
}

/**
 * Papers that go with the record: those that any entry names, unless every entry that does was
 * struck out. Who struck a paper out does not want it handed on.
 */
export function documentsIn(record: WellRecord): string[] {
  const voided = new Set(
    record.entries.filter((entry) => entry.kind === 'struck').map((entry) => entry.replaces),
  );
  const named = record.entries
    .filter((entry) => !voided.has(entry.id))
    .flatMap((entry) => [...(entry.kind === 'paper' ? [entry.body.hash] : []), ...documentsOf(entry)]);
  return [...new Set(named)].toSorted();
}
