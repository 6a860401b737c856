/** Readings that people took and pinned, and what the sensors made out to be normal. */
import { formatNumber, formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import { formatAmps, formatDuration, formatPressure } from '../../../shared/text/en/format.ts';
import { formatDay, entriesOf, type ExportContext } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { humanizeKey, formatValue } from './key-names.ts';
import { READING_DIMENSIONS } from '../../../shared/entries/entry-fields.ts';
import { readingSi } from '../entries/read-reading.ts';

const SHOWN_KEYS = ['what', 'value', 'pinned', 'text', 'papers'];

export function readingsSection(context: ExportContext): Markup {
  const rows = entriesOf(context, 'reading').map(({ atMs, by, body }) => [
    formatDay(context, atMs),
    `${humanizeKey(formatValue(body['what']))}${body['pinned'] === true ? ' (reference)' : ''}`,
    formatReading(context, body),
    formatValue(Object.fromEntries(Object.entries(body).filter(([key]) => !SHOWN_KEYS.includes(key)))),
    by,
    formatValue(body['text']),
  ]);
  if (rows.length === 0) return html`<p>Nobody wrote down a reading.</p> `;
  return table(['When', 'What', 'Value', 'How', 'By', 'Remark'], rows);
}

/** As it was written, and in the reader's units where those are others. */
function formatReading({ units }: ExportContext, body: Record<string, unknown>): string {
  const written = formatValue(body['value']);
  const read = readingSi(body);
  if (
    !read ||
    ['current', 'voltage', 'duration', 'resistance', 'capacitance'].includes(READING_DIMENSIONS[read.what])
  )
    return written;
  const printed = formatQuantity(read.si, READING_DIMENSIONS[read.what], units);
  return printed === written ? written : `${written} (${printed})`;
}

/** The baselines, newest first; the same again is left out. */
export function baselinesSection(context: ExportContext): Markup {
  const { units, record } = context;
  const rows = record.baselines
    .toReversed()
    .map(({ atMs, event: e }) => [
      formatDay(context, atMs),
      e.pump === 'p1' ? '' : humanizeKey(e.pump),
      e.amps === undefined ? '' : formatAmps(e.amps),
      e.cutInKpa === undefined || e.cutOutKpa === undefined
        ? ''
        : `${formatPressure(e.cutInKpa, units)} to ${formatPressure(e.cutOutKpa, units)}`,
      e.ranS === undefined ? '' : formatDuration(e.ranS),
      e.cyclesPerDay === undefined ? '' : formatNumber(e.cyclesPerDay, 0),
      e.noneBecause ?? (e.pinned ? 'pinned by a person' : ''),
    ]);
  if (rows.length === 0) return html`<p>No normal was learnt: nothing was measured for long enough.</p> `;
  return table(['Since', 'Pump', 'Running amps', 'Cut-in to cut-out', 'A run', 'Cycles a day', ''], rows);
}
