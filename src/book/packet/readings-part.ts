/** Readings that people took and pinned, and what the sensors made out to be normal. */
import { printNumber, printQuantity } from '../../../shared/quantity/print-quantity.ts';
import { sayAmps, sayDuration, sayPressure } from '../../../shared/words/format.ts';
import { dayOf, entriesOf, type Context } from './context.ts';
import { html, table, type Markup } from './markup.ts';
import { nameOf, valueWords } from './plain-words.ts';
import { READINGS, readingSi } from '../read-reading.ts';

const SAID = ['what', 'value', 'pinned', 'text', 'papers'];

export function readingsPart(context: Context): Markup {
  const rows = entriesOf(context, 'reading').map(({ atMs, by, body }) => [
    dayOf(context, atMs),
    `${nameOf(valueWords(body['what']))}${body['pinned'] === true ? ' (reference)' : ''}`,
    valueIn(context, body),
    valueWords(Object.fromEntries(Object.entries(body).filter(([key]) => !SAID.includes(key)))),
    by,
    valueWords(body['text']),
  ]);
  if (rows.length === 0) return html`<p>Nobody wrote down a reading.</p> `;
  return table(['When', 'What', 'Value', 'How', 'By', 'Remark'], rows);
}

/** As it was written, and in the reader's units where those are others. */
function valueIn({ units }: Context, body: Record<string, unknown>): string {
  const written = valueWords(body['value']);
  const read = readingSi(body);
  if (!read || ['current', 'voltage', 'duration', 'resistance', 'capacitance'].includes(READINGS[read.what]))
    return written;
  const printed = printQuantity(read.si, READINGS[read.what], units);
  return printed === written ? written : `${written} (${printed})`;
}

/** The baselines, newest first; the same again is left out. */
export function normalPart(context: Context): Markup {
  const { units, record } = context;
  const rows = record.baselines
    .toReversed()
    .map(({ atMs, event: e }) => [
      dayOf(context, atMs),
      e.pump === 'p1' ? '' : nameOf(e.pump),
      e.amps === undefined ? '' : sayAmps(e.amps),
      e.cutInKpa === undefined || e.cutOutKpa === undefined
        ? ''
        : `${sayPressure(e.cutInKpa, units)} to ${sayPressure(e.cutOutKpa, units)}`,
      e.ranS === undefined ? '' : sayDuration(e.ranS),
      e.cyclesPerDay === undefined ? '' : printNumber(e.cyclesPerDay, 0),
      e.noneBecause ?? (e.pinned ? 'pinned by a person' : ''),
    ]);
  if (rows.length === 0) return html`<p>No normal was learnt: nothing was measured for long enough.</p> `;
  return table(['Since', 'Pump', 'Running amps', 'Cut-in to cut-out', 'A run', 'Cycles a day', ''], rows);
}
