/**
 * The short way for the usual JSON pack: from bytes straight to columns, with no object or string
 * made on the way (several times the speed of JSON.parse and checks). It says yes or nothing: on
 * anything unusual or wrong it gives up, and ../senml/pack.ts reads the pack the long way and makes
 * the refusal. What it does read is equal, bit for bit, to the long way's result.
 */
import { NOT_FOUND, spaceEnd } from '../json/json-scan.ts';
import type { Pack } from '../messages.ts';
import { resetRows } from '../senml/rows.ts';
import type { Rows } from '../senml/rows.ts';
import {
  N,
  SEEN_BITS,
  T,
  T_FROM,
  U,
  V,
  V_FROM,
  bitsOf,
  resetFields,
  withoutField,
} from '../senml/scan-fields.ts';
import { addRecord, addRow, scannedPack } from '../senml/scanned-pack.ts';
import type { PackSource } from '../wire-format.ts';
import { matchTemplate, saveTemplate, clearTemplate } from './record-template.ts';
import { scanRecord } from './scan-record.ts';

const COMMA = 0x2c;
const OPEN_LIST = 0x5b;
const CLOSE_LIST = 0x5d;

/** A record that others may repeat: name, time and value, with or without a unit. */
const TEMPLATE_BITS = bitsOf(N, T, V);
/** The longest turn of channels that is looked for: more than any usual node has. */
const MAX_CHANNEL_PERIOD = 16;

/** The pack, or undefined where it is not of the usual shape. */
export function scanPack(source: PackSource): Pack | undefined {
  const { bytes } = source;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const f = resetFields();
  const rows = resetRows();
  let at = spaceEnd(bytes, 0);
  if (bytes[at] !== OPEN_LIST) return undefined;
  let period = 0;
  do {
    const from = spaceEnd(bytes, at + 1);
    at = period === 0 ? NOT_FOUND : repeatRecord(bytes, view, from, period, f, rows);
    if (at === NOT_FOUND) {
      at = readRecord(source, from, f, rows);
      period = channelPeriod(rows);
    }
    if (at === NOT_FOUND) return undefined;
    at = spaceEnd(bytes, at);
  } while (bytes[at] === COMMA);
  if (bytes[at] !== CLOSE_LIST || spaceEnd(bytes, at + 1) !== bytes.length) return undefined;
  return scannedPack(f, rows, source);
}

/** Reads a record as a repeat of the one a turn of channels before. */
function repeatRecord(
  bytes: Uint8Array,
  view: DataView,
  from: number,
  period: number,
  f: Float64Array,
  rows: Rows,
): number {
  const previous = rows.n - period;
  const to = matchTemplate(bytes, view, from, previous, f);
  if (to === NOT_FOUND || !addRow(f, rows, rows.code[previous]!, f[V]!, 0)) return NOT_FOUND;
  saveTemplate(rows.n - 1, from, to, f);
  return to;
}

/**
 * How many records back the channel of the last one came before: so many channels are likely to
 * come in turn. 0: it didn't.
 */
function channelPeriod({ n, code }: Rows): number {
  const last = n - 1;
  const oldest = Math.max(last - MAX_CHANNEL_PERIOD, 0);
  for (let i = last - 1; i >= oldest; i--) if (code[i] === code[last]) return last - i;
  return 0;
}

/** Reads a record letter by letter. */
function readRecord(source: PackSource, from: number, f: Float64Array, rows: Rows): number {
  const to = scanRecord(source.bytes, from, f);
  if (to === NOT_FOUND || !addRecord(source, f, rows)) return NOT_FOUND;
  if (withoutField(f[SEEN_BITS]!, U) === TEMPLATE_BITS && f[T_FROM]! < f[V_FROM]!)
    saveTemplate(rows.n - 1, from, to, f);
  else clearTemplate(rows.n - 1);
  return to;
}
