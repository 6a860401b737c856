/** What every part of the packet's page is made from. */
import { dateWords, momentWords } from '../../../shared/text/en/time-words.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { Card } from '../../core/domain/card.ts';
import type { EntryKind } from '../../../shared/entries/entry-fields.ts';
import type { Entry } from '../entries/entry.ts';
import { currentEntries } from '../entries/entry.ts';
import { newestMs, type WellRecord } from './record.ts';

export interface ExportContext {
  record: WellRecord;
  /** As it is read, where it can be. */
  card: Card | undefined;
  units: UnitSystem;
  timeZone: string;
  /** The newest that the record knows of. */
  newestMs: number;
  /** Entries that count. */
  entries: readonly Entry[];
  /** Papers whose bytes are at hand here, by hash. */
  availableDocuments: ReadonlySet<string>;
}

export function newExportContext(
  record: WellRecord,
  { card, units, availableDocuments }: Pick<ExportContext, 'card' | 'units' | 'availableDocuments'>,
): ExportContext {
  return {
    record,
    card,
    units,
    timeZone: card?.timeZone ?? 'UTC',
    newestMs: newestMs(record) ?? 0,
    entries: currentEntries(record.entries),
    availableDocuments,
  };
}

/** Newest first. */
export function entriesOf(context: ExportContext, ...kinds: EntryKind[]): Entry[] {
  return context.entries.filter((entry) => kinds.includes(entry.kind)).toReversed();
}

/** "14 July 2026": with its year, since it will be read in another one. */
export function formatDay(context: ExportContext, atMs: number): string {
  return dateWords(atMs, context.timeZone, 0);
}

/** "Tue 14 July 2026, 10:40 am". */
export function formatMoment(context: ExportContext, atMs: number): string {
  return momentWords(atMs, context.timeZone, context.units, 0);
}
