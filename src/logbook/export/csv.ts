/**
 * Tables for people who work with spreadsheets (RFC 4180, with CRLF and a byte order mark, which says UTF-8 to the usual programs). Numbers
 * are SI with the unit in the column's name; what was not measured is empty. A text that a spreadsheet would run as a formula is given an
 * apostrophe; what was written to the letter stands in the record.
 */
import type { WellRecord } from './record.ts';

type Cell = string | number | undefined;

export function csvTable(head: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return `\ufeff${[head, ...rows].map((row) => `${row.map(printCell).join(',')}\r\n`).join('')}`;
}

function printCell(cell: Cell): string {
  if (cell === undefined) return '';
  if (typeof cell === 'number') return String(cell);
  const safe = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

const CYCLE_KEYS = [
  'pump',
  'started',
  'stopped',
  'ranS',
  'restedS',
  'amps',
  'amps2',
  'amps3',
  'startAmps',
  'cutInKpa',
  'cutOutKpa',
  'riseDelayS',
  'deliveredL',
] as const;
const DAY_KEYS = ['date', 'pump', 'cycles', 'ranS', 'heardS', 'ampsMedian', 'usedL', 'leakLPerDay'] as const;

export function cyclesCsv({ cycles }: WellRecord): string {
  return csvTable(
    [...CYCLE_KEYS, 'flags'],
    cycles.map(({ event }) => [...CYCLE_KEYS.map((key) => event[key]), event.flags.join(' ')]),
  );
}

export function daysCsv({ days }: WellRecord): string {
  return csvTable(
    DAY_KEYS,
    days.map(({ event }) => DAY_KEYS.map((key) => event[key])),
  );
}

/** `body` is JSON, as it was written. */
export function entriesCsv({ entries }: WellRecord): string {
  const at = (ms: number): string => new Date(ms).toISOString();
  return csvTable(
    ['id', 'kind', 'at', 'written', 'by', 'replaces', 'body'],
    entries.map((e) => [e.id, e.kind, at(e.atMs), at(e.createdMs), e.by, e.replaces, JSON.stringify(e.body)]),
  );
}
