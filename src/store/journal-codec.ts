/**
 * All packs of one commit as one row of bytes, and back without loss. One row a commit is what makes a commit cheap: the cost is
 * the row, not the pack. Each row carries a checksum, because it is the only place where its readings are until blocks are sealed.
 *
 * Row: version, CRC-32 of the rest, count, then the packs. Values are whole numbers of decimal steps and times differences where
 * that is exact; doubles as they are where it is not.
 */
import { crc32 } from 'node:zlib';
import { channelCode, channelName } from '../wire/channels.ts';
import type { PackColumn } from '../wire/messages.ts';
import type { PlacedPack } from '../readings/placed.ts';
import {
  newSink,
  putByte,
  putBytes,
  putCount,
  putDouble,
  putSigned,
  putText,
  putWord,
  takeByte,
  takeBytes,
  takeCount,
  takeDouble,
  takeSigned,
  takeText,
  takeWord,
  written,
} from './bytes.ts';
import type { Sink, Source } from './bytes.ts';
import { findStep, fromWhole, stepOf, toWhole } from './decimal.ts';

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

/** How a column is written: faults or none, its times in one of four ways, its values in steps or as doubles. */
const HAS_FAULTS = 1;
const TIMES_EVEN = 0;
const TIMES_DELTA = 2;
const TIMES_RAW = 4;
const TIMES_AS_BEFORE = 6;
const TIMES_MASK = 6;
const VALUES_RAW = 8;
const VALUES_SINGLE = 16;

/** In place of a channel code: the name follows as text. No channel has this code (src/wire/channels.ts). */
const NAMED = 255;
const DECIMALS_OFFSET = 8;

export function encodeJournalRow(packs: readonly PlacedPack[]): Buffer {
  const sink = newSink(256 + packs.length * 128);
  putByte(sink, VERSION);
  putWord(sink, 0);
  putCount(sink, packs.length);
  for (const pack of packs) putPack(sink, pack);
  const row = written(sink);
  row.writeUInt32LE(crc32(row.subarray(HEAD_BYTES)), 1);
  return row;
}

/** @throws RangeError where the bytes are not what was written. */
export function decodeJournalRow(row: Buffer): PlacedPack[] {
  if (row[0] !== VERSION)
    throw new RangeError(`Cannot read journal row: its version must be ${VERSION}: ${row[0]}`);
  const source: Source = { bytes: row, at: 1 };
  if (takeWord(source) !== crc32(row.subarray(HEAD_BYTES))) {
    throw new RangeError('Cannot read journal row: its checksum does not match');
  }
  return Array.from({ length: takeCount(source) }, () => takePack(source));
}

function putPack(sink: Sink, pack: PlacedPack): void {
  putByte(
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
  putText(sink, pack.node);
  putDouble(sink, pack.arrivalMs);
  putSigned(sink, pack.digest);
  if (pack.boot !== undefined) putCount(sink, pack.boot);
  if (pack.seq !== undefined) putCount(sink, pack.seq);
  if (pack.first !== undefined) putCount(sink, pack.first);
  if (pack.upMs !== undefined) putDouble(sink, pack.upMs);
  if (pack.shiftMs !== undefined) putDouble(sink, pack.shiftMs);
  putCount(sink, pack.columns.length);
  let before: PackColumn | undefined;
  for (const column of pack.columns) {
    putColumn(sink, column, before);
    before = column;
  }
}

function takePack(source: Source): PlacedPack {
  const has = takeByte(source);
  const node = takeText(source);
  const arrivalMs = takeDouble(source);
  const digest = takeSigned(source);
  const pack: PlacedPack = {
    node,
    kind: has & IS_START ? 'start' : 'readings',
    ...(has & HAS_BOOT ? { boot: takeCount(source) } : {}),
    ...(has & HAS_SEQ ? { seq: takeCount(source) } : {}),
    ...(has & HAS_FIRST ? { first: takeCount(source) } : {}),
    arrivalMs,
    columns: [],
    digest,
    ...(has & HAS_UP ? { upMs: takeDouble(source) } : {}),
    ...(has & HAS_SHIFT ? { shiftMs: takeDouble(source) } : {}),
    ...(has & CLOCK_STEP ? { clockStep: true } : {}),
    ...(has & TIME_UNKNOWN ? { timeUnknown: true } : {}),
  };
  const columns = takeCount(source);
  for (let i = 0; i < columns; i++) pack.columns.push(takeColumn(source, pack.columns[i - 1]));
  return pack;
}

function putColumn(sink: Sink, column: PackColumn, before: PackColumn | undefined): void {
  const { times, values, faults } = column;
  const n = times.length;
  const code = channelCode(column.channel);
  putByte(sink, code ?? NAMED);
  if (code === undefined) putText(sink, column.channel);
  putCount(sink, n);
  const timesAre = howTimes(times, before?.times);
  const step = faultsAreNaN(column) ? findStep(values, n, faults) : undefined;
  putByte(
    sink,
    (faults ? HAS_FAULTS : 0) | timesAre | (step ? 0 : VALUES_RAW) | (step?.single ? VALUES_SINGLE : 0),
  );
  if (faults) putBytes(sink, faults);
  putTimes(sink, times, timesAre);
  if (!step) {
    for (const value of values) putDouble(sink, value);
    return;
  }
  putByte(sink, step.decimals + DECIMALS_OFFSET);
  let last = 0;
  for (let i = 0; i < n; i++) {
    if (faults && faults[i] !== 0) continue;
    const whole = toWhole(values[i]!, step);
    putSigned(sink, whole - last);
    last = whole;
  }
}

function takeColumn(source: Source, before: PackColumn | undefined): PackColumn {
  const code = takeByte(source);
  const channel = code === NAMED ? takeText(source) : channelName(code);
  const n = takeCount(source);
  const how = takeByte(source);
  const faults = how & HAS_FAULTS ? Uint8Array.from(takeBytes(source, n)) : undefined;
  const times = takeTimes(source, n, how & TIMES_MASK, before?.times);
  const values = new Float64Array(n);
  if (how & VALUES_RAW) {
    for (let i = 0; i < n; i++) values[i] = takeDouble(source);
  } else {
    const step = stepOf(takeByte(source) - DECIMALS_OFFSET, (how & VALUES_SINGLE) !== 0);
    let whole = 0;
    for (let i = 0; i < n; i++) {
      if (faults && faults[i] !== 0) {
        values[i] = Number.NaN;
        continue;
      }
      whole += takeSigned(source);
      values[i] = fromWhole(whole, step);
    }
  }
  return { channel, times, values, ...(faults ? { faults } : {}) };
}

/** A fault's value is NaN by the rule of PackColumn; a column that breaks it is kept as it is, in doubles. */
function faultsAreNaN({ values, faults }: PackColumn): boolean {
  return !faults || faults.every((fault, i) => fault === 0 || Number.isNaN(values[i]));
}

function howTimes(times: Float64Array, before: Float64Array | undefined): number {
  const n = times.length;
  if (before && before.length === n && times.every((t, i) => Object.is(t, before[i]))) return TIMES_AS_BEFORE;
  const period = n > 1 ? times[1]! - times[0]! : 0;
  let even = true;
  for (let i = 0; i < n; i++) {
    const t = times[i]!;
    if (!Number.isSafeInteger(t) || Math.abs(t) > 2 ** 50 || Object.is(t, -0)) return TIMES_RAW;
    if (i > 0 && t - times[i - 1]! !== period) even = false;
  }
  return even && n > 1 ? TIMES_EVEN : TIMES_DELTA;
}

function putTimes(sink: Sink, times: Float64Array, how: number): void {
  if (how === TIMES_EVEN) {
    putSigned(sink, times[0]!);
    putSigned(sink, times[1]! - times[0]!);
  } else if (how === TIMES_RAW) {
    for (const t of times) putDouble(sink, t);
  } else if (how === TIMES_DELTA) {
    let last = 0;
    for (const t of times) {
      putSigned(sink, t - last);
      last = t;
    }
  }
}

function takeTimes(source: Source, n: number, how: number, before: Float64Array | undefined): Float64Array {
  if (how === TIMES_AS_BEFORE) return Float64Array.from(before ?? []);
  const times = new Float64Array(n);
  if (how === TIMES_EVEN) {
    const first = takeSigned(source);
    const period = takeSigned(source);
    for (let i = 0; i < n; i++) times[i] = first + i * period;
    return times;
  }
  let last = 0;
  for (let i = 0; i < n; i++)
    times[i] = how === TIMES_RAW ? takeDouble(source) : (last += takeSigned(source));
  return times;
}
