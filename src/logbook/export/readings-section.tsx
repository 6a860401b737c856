/** Readings that people took and pinned, and what the sensors made out to be normal. */
import { entriesOf, type EntryOf } from '../../../shared/entries/entry.ts';
import { READING_DIMENSIONS } from '../../../shared/entries/entry-fields.ts';
import { formatNumber, formatQuantity, type UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';
import { findReadingWords } from '../../../shared/text/en/checks/reading-words.ts';
import { formatAmps, formatDuration, formatPressure } from '../../../shared/text/en/format.ts';
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { Table } from '../../../shared/view/table.tsx';
import { readingSi } from '../entries/read-reading.ts';
import type { ExportContext } from './context.ts';
import { formatValue, humanizeKey } from './key-names.ts';

export function ReadingsSection({ entries, units, day }: ExportContext) {
  const { head, reference } = EXPORT_FILE_TEXT.readings;
  const readings = entriesOf(entries, 'reading').toReversed();
  if (readings.length === 0) return <p>{EXPORT_FILE_TEXT.none}</p>;
  const rows = readings.map(({ atMs, by, body }) => {
    const { what, value: _value, pinned = false, text, papers: _papers, ...how } = body;
    const title = findReadingWords(what)?.title ?? humanizeKey(what);
    return {
      cells: [
        day(atMs),
        pinned ? reference(title) : title,
        formatReading(body, units),
        formatValue(how),
        by,
        text,
      ],
    };
  });
  return <Table head={head} rows={rows} />;
}

/** The same in both systems of units. */
const ONE_UNIT: readonly Dimension[] = ['current', 'voltage', 'duration', 'resistance', 'capacitance'];

/** As it was written, and in the reader's units where those are others. */
function formatReading(body: EntryOf<'reading'>['body'], units: UnitSystem): string {
  const written = body.value;
  const read = readingSi(body);
  const dimension = READING_DIMENSIONS[body.what];
  if (!read || ONE_UNIT.includes(dimension)) return written;
  const printed = formatQuantity(read.si, dimension, units);
  return printed === written ? written : `${written} (${printed})`;
}

/** The baselines, newest first. */
export function NormalSection({ units, record, day }: ExportContext) {
  const { none, head, pinned, fromTo } = EXPORT_FILE_TEXT.normal;
  if (record.baselines.length === 0) return <p>{none}</p>;
  const rows = record.baselines.toReversed().map(({ atMs, event: e }) => ({
    cells: [
      day(atMs),
      e.pump === 'p1' ? '' : humanizeKey(e.pump),
      e.amps === undefined ? '' : formatAmps(e.amps),
      e.cutInKpa === undefined || e.cutOutKpa === undefined
        ? ''
        : fromTo(formatPressure(e.cutInKpa, units), formatPressure(e.cutOutKpa, units)),
      e.ranS === undefined ? '' : formatDuration(e.ranS),
      e.cyclesPerDay === undefined ? '' : formatNumber(e.cyclesPerDay, 0),
      e.noneBecause ?? (e.pinned ? pinned : ''),
    ],
  }));
  return <Table head={head} rows={rows} />;
}
