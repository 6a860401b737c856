/**
 * All packs of one commit as one row of bytes, and back without loss. One row a commit is what
 * makes a commit cheap: the cost is the row, not the pack. Each row carries a checksum, because it
 * is the only place where its readings are until blocks are sealed.
 *
 * Row: version, CRC-32 of the rest, count, then the packs. Values are whole numbers of decimal
 * steps and times differences where that is exact; doubles as they are where it is not.
 */
import { crc32 } from 'node:zlib';
import { channelCode, channelName } from '../../core/domain/channels.ts';
import type { PackColumn } from '../../core/decode/messages.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import {
  newByteSink,
  writeByte,
  writeBytes,
  writeVarint,
  writeDouble,
  writeSignedVarint,
  writeText,
  writeUint32,
  readByte,
  readBytes,
  readVarint,
  readDouble,
  readSignedVarint,
  readText,
  readUint32,
  writtenBytes,
} from './bytes.ts';
import type { ByteSink, ByteSource } from './bytes.ts';
import { findStep, fromInteger, stepOf, toInteger } from './decimal.ts';

const VERSION = 1;
/** Version and checksum. */
const HEAD_BYTES = 5;

/** What a pack has, a bit each. */
const IS_START = 1;
const HAS_BOOT = 2;
const HAS_SEQ = 4;
const HAS_FIRST = 8;
const HAS_UP = 16;
const CLOCK_STEP = 32;
const TIME_UNKNOWN = 64;
const HAS_SHIFT = 128;

/**
 * How a column is written: faults or none, its times in one of four ways, its values in steps or as
 * doubles.
 */
const HAS_FAULTS = 1;
const TIMES_EVEN = 0;
const TIMES_DELTA = 2;
const TIMES_RAW = 4;
const TIMES_SAME = 6;
const TIMES_MASK = 6;
const VALUES_RAW = 8;
const VALUES_SINGLE = 16;

/**
 * In place of a channel code: the name follows as text. No channel has this code
 * (src/core/domain/channels.ts).
 */
const NAMED = 255;
const DECIMALS_OFFSET = 8;

export function encodeJournalRow(packs: readonly PlacedPack[]): Buffer {
  const sink = newByteSink(256 + packs.length * 128);
  writeByte(sink, VERSION);
  writeUint32(sink, 0);
  writeVarint(sink, packs.length);
  for (const pack of packs) writePack(sink, pack);
  const row = writtenBytes(sink);
  row.writeUInt32LE(crc32(row.subarray(HEAD_BYTES)), 1);
  return row;
}

/** @throws RangeError where the bytes are not what was written. */
export function decodeJournalRow(row: Buffer): PlacedPack[] {
  if (row[0] !== VERSION)
    throw new RangeError(`Cannot read journal row: its version must be ${VERSION}: ${row[0]}`);
  const source: ByteSource = { bytes: row, offset: 1 };
  if (readUint32(source) !== crc32(row.subarray(HEAD_BYTES))) {
    throw new RangeError('Cannot read journal row: its checksum does not match');
  }
  return Array.from({ length: readVarint(source) }, () => readPack(source));
}

function writePack(sink: ByteSink, pack: PlacedPack): void {
  writeByte(
    sink,
    (pack.kind === 'start' ? IS_START : 0) |
      (pack.boot === undefined ? 0 : HAS_BOOT) |
      (pack.seq === undefined ? 0 : HAS_SEQ) |
      (pack.first === undefined ? 0 : HAS_FIRST) |
      (pack.upMs === undefined ? 0 : HAS_UP) |
      (pack.clockStep ? CLOCK_STEP : 0) |
      (pack.timeUnknown ? TIME_UNKNOWN : 0) |
      (pack.shiftMs === undefined ? 0 : HAS_SHIFT),
  );
  writeText(sink, pack.node);
  writeDouble(sink, pack.arrivalMs);
  writeSignedVarint(sink, pack.digest);
  if (pack.boot !== undefined) writeVarint(sink, pack.boot);
  if (pack.seq !== undefined) writeVarint(sink, pack.seq);
  if (pack.first !== undefined) writeVarint(sink, pack.first);
  if (pack.upMs !== undefined) writeDouble(sink, pack.upMs);
  if (pack.shiftMs !== undefined) writeDouble(sink, pack.shiftMs);
  writeVarint(sink, pack.columns.length);
  let before: PackColumn | undefined;
  for (const column of pack.columns) {
    writeColumn(sink, column, before);
    before = column;
  }
}

function readPack(source: ByteSource): PlacedPack {
  const has = readByte(source);
  const node = readText(source);
  const arrivalMs = readDouble(source);
  const digest = readSignedVarint(source);
  const pack: PlacedPack = {
    node,
    kind: has & IS_START ? 'start' : 'readings',
    ...(has & HAS_BOOT ? { boot: readVarint(source) } : {}),
    ...(has & HAS_SEQ ? { seq: readVarint(source) } : {}),
    ...(has & HAS_FIRST ? { first: readVarint(source) } : {}),
    arrivalMs,
    columns: [],
    digest,
    ...(has & HAS_UP ? { upMs: readDouble(source) } : {}),
    ...(has & HAS_SHIFT ? { shiftMs: readDouble(source) } : {}),
    ...(has & CLOCK_STEP ? { clockStep: true } : {}),
    ...(has & TIME_UNKNOWN ? { timeUnknown: true } : {}),
  };
  const columns = readVarint(source);
  for (let i = 0; i < columns; i++) pack.columns.push(readColumn(source, pack.columns[i - 1]));
  return pack;
}

function writeColumn(sink: ByteSink, column: PackColumn, before: PackColumn | undefined): void {
  const { times, values, faults } = column;
  const n = times.length;
  const code = channelCode(column.channel);
  writeByte(sink, code ?? NAMED);
  if (code === undefined) writeText(sink, column.channel);
  writeVarint(sink, n);
  const timesAre = timesEncoding(times, before?.times);
  const step = faultsAreNaN(column) ? findStep(values, n, faults) : undefined;
  writeByte(
    sink,
    (faults ? HAS_FAULTS : 0) | timesAre | (step ? 0 : VALUES_RAW) | (step?.single ? VALUES_SINGLE : 0),
  );
  if (faults) writeBytes(sink, faults);
  writeTimes(sink, times, timesAre);
  if (!step) {
    for (const value of values) writeDouble(sink, value);
    return;
  }
  writeByte(sink, step.decimals + DECIMALS_OFFSET);
  let last = 0;
  for (let i = 0; i < n; i++) {
    if (faults && faults[i] !== 0) continue;
    const whole = toInteger(values[i]!, step);
    writeSignedVarint(sink, whole - last);
    last = whole;
  }
}

function readColumn(source: ByteSource, before: PackColumn | undefined): PackColumn {
  const code = readByte(source);
  const channel = code === NAMED ? readText(source) : channelName(code);
  const n = readVarint(source);
  const how = readByte(source);
  const faults = how & HAS_FAULTS ? Uint8Array.from(readBytes(source, n)) : undefined;
  const times = readTimes(source, n, how & TIMES_MASK, before?.times);
  const values = new Float64Array(n);
  if (how & VALUES_RAW) {
    for (let i = 0; i < n; i++) values[i] = readDouble(source);
  } else {
    const step = stepOf(readByte(source) - DECIMALS_OFFSET, (how & VALUES_SINGLE) !== 0);
    let whole = 0;
    for (let i = 0; i < n; i++) {
      if (faults && faults[i] !== 0) {
        values[i] = Number.NaN;
        continue;
      }
      whole += readSignedVarint(source);
      values[i] = fromInteger(whole, step);
    }
  }
  return { channel, times, values, ...(faults ? { faults } : {}) };
}

/**
 * A fault's value is NaN by the rule of PackColumn; a column that breaks it is kept as it is, in
 * doubles.
 */
function faultsAreNaN({ values, faults }: PackColumn): boolean {
  return !faults || faults.every((fault, i) => fault === 0 || Number.isNaN(values[i]));
}

function timesEncoding(times: Float64Array, before: Float64Array | undefined): number {
  const n = times.length;
  if (before && before.length === n && times.every((t, i) => Object.is(t, before[i]))) return TIMES_SAME;
  const period = n > 1 ? times[1]! - times[0]! : 0;
  let even = true;
  for (let i = 0; i < n; i++) {
    const t = times[i]!;
    if (!Number.isSafeInteger(t) || Math.abs(t) > 2 ** 50 || Object.is(t, -0)) return TIMES_RAW;
    if (i > 0 && t - times[i - 1]! !== period) even = false;
  }
  return even && n > 1 ? TIMES_EVEN : TIMES_DELTA;
}

function writeTimes(sink: ByteSink, times: Float64Array, encoding: number): void {
  if (encoding === TIMES_EVEN) {
    writeSignedVarint(sink, times[0]!);
    writeSignedVarint(sink, times[1]! - times[0]!);
  } else if (encoding === TIMES_RAW) {
    for (const t of times) writeDouble(sink, t);
  } else if (encoding === TIMES_DELTA) {
    let last = 0;
    for (const t of times) {
      writeSignedVarint(sink, t - last);
      last = t;
    }
  }
}

function readTimes(
  source: ByteSource,
  n: number,
  encoding: number,
  before: Float64Array | undefined,
): Float64Array {
  if (encoding === TIMES_SAME) return Float64Array.from(before ?? []);
  const times = new Float64Array(n);
  if (encoding === TIMES_EVEN) {
    const first = readSignedVarint(source);
    const period = readSignedVarint(source);
    for (let i = 0; i < n; i++) times[i] = first + i * period;
    return times;
  }
  let last = 0;
  for (let i = 0; i < n; i++)
    times[i] = encoding === TIMES_RAW ? readDouble(source) : (last += readSignedVarint(source));
  return times;
}
