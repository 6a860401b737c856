/**
 * The readings of a pack while it is being read: one row each, in the pack's order, then parted
 * into one column a channel. Both readers of packs (./scanned-pack.ts, ./pack.ts) fill the
 * same rows, so that they can't part them differently.
 */
import { channelName, pumpOf, baseOf, MAX_PUMPS } from '../../domain/channels.ts';
import { MAX_RECORDS } from '../limits.ts';
import type { PackColumn } from '../messages.ts';

export interface Rows {
  n: number;
  code: Uint8Array;
  timeMs: Float64Array;
  value: Float64Array;
  fault: Uint8Array;
}

const CODES = 256;
const NAMES: string[] = Array.from({ length: CODES }, (_, code) =>
  baseOf(code) !== undefined && pumpOf(code) < MAX_PUMPS ? channelName(code) : '',
);

/**
 * One set of rows serves all packs, because reading a pack never waits for anything: it is emptied
 * at the start and copied out of at the end. Nobody outside can tell.
 */
const sharedRows: Rows = {
  n: 0,
  code: new Uint8Array(MAX_RECORDS),
  timeMs: new Float64Array(MAX_RECORDS),
  value: new Float64Array(MAX_RECORDS),
  fault: new Uint8Array(MAX_RECORDS),
};
const counts = new Uint16Array(CODES);
const faultCounts = new Uint16Array(CODES);

export function resetRows(): Rows {
  sharedRows.n = 0;
  return sharedRows;
}

/**
 * Columns in the order in which their channels first appear; their arrays are of exactly the
 * readings' number.
 */
export function columnsOf(rows: Rows): PackColumn[] {
  const order = countByCode(rows);
  const columns: PackColumn[] = [];
  let at = allocate(rows.n * BYTES_PER_READING);
  for (const code of order) {
    const length = counts[code]!;
    const times = new Float64Array(buffer.memory, at, length);
    const values = new Float64Array(buffer.memory, at + length * 8, length);
    at += length * BYTES_PER_READING;
    copyColumn(rows, code, times, values);
    const column: PackColumn = { channel: NAMES[code]!, times, values };
    if (faultCounts[code] !== 0) column.faults = faultsOf(rows, code, length);
    columns.push(column);
    counts[code] = 0;
    faultCounts[code] = 0;
  }
  return columns;
}

/** A time and a value, doubles both. */
const BYTES_PER_READING = 16;

/**
 * Many packs share one piece of memory, each its own part of it: making a piece for each costs more
 * than reading the pack. Packs are let go within a turn or copied, so that no piece is held for the
 * sake of one pack. The largest pack fits: 2,000 readings are 32,000 bytes.
 */
const BUFFER_BYTES = 1 << 16;
const buffer = { memory: new ArrayBuffer(BUFFER_BYTES), used: 0 };

/** Where in the room so many bytes are free; a new room where they don't fit. */
function allocate(bytes: number): number {
  if (buffer.used + bytes > BUFFER_BYTES) {
    buffer.memory = new ArrayBuffer(BUFFER_BYTES);
    buffer.used = 0;
  }
  const at = buffer.used;
  buffer.used += bytes;
  return at;
}

function countByCode(rows: Rows): number[] {
  const order: number[] = [];
  for (let i = 0; i < rows.n; i++) {
    const code = rows.code[i]!;
    if (counts[code] === 0) order.push(code);
    counts[code]!++;
    if (rows.fault[i] !== 0) faultCounts[code]!++;
  }
  return order;
}

function copyColumn(rows: Rows, code: number, times: Float64Array, values: Float64Array): void {
  const { length } = times;
  for (let i = 0, to = 0; to < length; i++) {
    if (rows.code[i] !== code) continue;
    times[to] = rows.timeMs[i]!;
    values[to] = rows.value[i]!;
    to++;
  }
}

function faultsOf(rows: Rows, code: number, length: number): Uint8Array {
  const faults = new Uint8Array(length);
  for (let i = 0, to = 0; to < length; i++) if (rows.code[i] === code) faults[to++] = rows.fault[i]!;
  return faults;
}
