/** What every part of the export's page is made from. */
import { dateWords, momentWords } from '../../../shared/text/en/time-words.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { currentEntries, type Entry } from '../../../shared/entries/entry.ts';
import type { Card } from '../../core/domain/card.ts';
import { newestMs, type WellRecord } from './record.ts';

export interface ExportContext {
  record: WellRecord;
  /** As it is read, where it can be. */
  card: Card | undefined;
  units: UnitSystem;
  timeZone: string;
  /** The newest that the record knows of. */
  newestMs: number;
  /** Entries that count, oldest first. */
  entries: readonly Entry[];
  /** Documents whose bytes are at hand here, by hash. */
  availableDocuments: ReadonlySet<string>;
  /** "14 July 2026": with its year, since it will be read in another one. */
  day: (atMs: number) => string;
  /** "Tue 14 July 2026, 10:40 am". */
  moment: (atMs: number) => string;
}

export function newExportContext(
  record: WellRecord,
  { card, units, availableDocuments }: Pick<ExportContext, 'card' | 'units' | 'availableDocuments'>,
): ExportContext {
  const timeZone = card?.timeZone ?? 'UTC';
  return {
    record,
    card,
    units,
    timeZone,
    newestMs: newestMs(record) ?? 0,
    entries: currentEntries(record.entries),
    availableDocuments,
    day: (atMs) => dateWords(atMs, timeZone, 0),
    moment: (atMs) => momentWords(atMs, timeZone, units, 0),
  };
}
