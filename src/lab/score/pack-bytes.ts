/**
 * The bytes of a pack, written digit by digit: the proving ground sends some thousand million
 * readings, and objects on the way would cost more than all that is proved. What is written is what
 * src/core/decode/senml-json/encode-pack.ts would write.
 */
import type { FaultCode } from '../../core/decode/messages.ts';

/** The records of one pack in order of time. One serves a node for all its packs. */
export interface Records {
  n: number;
  channel: Uint8Array;
  timeMs: Float64Array;
  value: Float64Array;
  fault: Uint8Array;
}

/** What a pack says of itself on its first record. */
export interface PackStamp {
  boot: number;
  seq: number;
  first?: number;
  /** Unix ms of time 0; absent where times are relative to `upMs`. */
  baseMs?: number;
  upMs?: number;
}

/** A channel's part of each record, ready as bytes. */
export interface ChannelPrefix {
  /** `"n":"current","u":"A"` */
  first: Uint8Array;
  /** The same, and `,"t":`. */
  timed: Uint8Array;
  isContact: boolean;
}

/** The contract's most records of one pack. */
export const MAX_RECORDS = 2000;
/** The contract's largest payload. */
const MAX_BYTES = 128 << 10;

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);
const VALUE = ascii(',"v":');
const COMMA = 0x2c;
const OPEN = 0x7b;
const END = 0x7d;
const CLOSE_LIST = 0x5d;
const ZERO = 0x30;
const MINUS = 0x2d;
const POINT = 0x2e;
const FAULTS: Record<FaultCode, Uint8Array> = {
  0: ascii(''),
  1: ascii(',"vs":"low"'),
  2: ascii(',"vs":"high"'),
  3: ascii(',"vs":"bad"'),
};
const TRUE = ascii(',"vb":true');
const FALSE = ascii(',"vb":false');
/** Thousandths that fit a small integer: readings up to a million. */
const MAX_THOUSANDTHS = 0x3fffffff;

/**
 * All packs are written here and then cut out. Each writer below takes the place to write at and
 * answers where it ended.
 */
const buffer = new Uint8Array(MAX_BYTES);

export function newRecords(): Records {
  return {
    n: 0,
    channel: new Uint8Array(MAX_RECORDS),
    timeMs: new Float64Array(MAX_RECORDS),
    value: new Float64Array(MAX_RECORDS),
    fault: new Uint8Array(MAX_RECORDS),
  };
}

export function newChannelPrefix(channel: string, unit: string): ChannelPrefix {
  const text = unit === '' ? `"n":"${channel}"` : `"n":"${channel}","u":"${unit}"`;
  return { first: ascii(text), timed: ascii(`${text},"t":`), isContact: channel.endsWith('contact') };
}

/** SenML JSON bytes of the records, whose times are ms after time 0 of the stamp. */
export function packBytes(
  node: string,
  stamp: PackStamp,
  prefixes: readonly ChannelPrefix[],
  records: Records,
): Uint8Array {
  let at = putText(0, `[{${stampText(node, stamp)}`);
  for (let i = 0; i < records.n; i++) {
    if (i > 0) {
      buffer[at++] = COMMA;
      buffer[at++] = OPEN;
    }
    at = putRecord(at, prefixes[records.channel[i]!]!, records, i);
  }
  buffer[at++] = CLOSE_LIST;
  return buffer.slice(0, at);
}

function stampText(node: string, { boot, seq, first, baseMs, upMs }: PackStamp): string {
  return (
    `"bn":"${node}:",${baseMs === undefined ? '' : `"bt":${baseMs / 1000},`}"boot":${boot},"seq":${seq},` +
    `${first === undefined ? '' : `"first":${first},`}${upMs === undefined ? '' : `"up":${upMs / 1000},`}`
  );
}

function putRecord(from: number, label: ChannelPrefix, { timeMs, value, fault }: Records, i: number): number {
  let at = timeMs[i] === 0 ? put(from, label.first) : putNumber(put(from, label.timed), timeMs[i]! / 1000);
  const wrong = fault[i] as FaultCode;
  if (wrong !== 0) at = put(at, FAULTS[wrong]);
  else if (label.isContact) at = put(at, value[i] === 0 ? FALSE : TRUE);
  else at = putNumber(put(at, VALUE), value[i]!);
  buffer[at] = END;
  return at + 1;
}

function put(at: number, bytes: Uint8Array): number {
  for (let i = 0; i < bytes.length; i++) buffer[at + i] = bytes[i]!;
  return at + bytes.length;
}

function putText(at: number, text: string): number {
  for (let i = 0; i < text.length; i++) buffer[at + i] = text.charCodeAt(i);
  return at + text.length;
}

/** Up to three decimals digit by digit; what has more is printed as JSON does. */
function putNumber(from: number, value: number): number {
  const thousandths = Math.round(value * 1000);
  if (thousandths / 1000 !== value || Math.abs(thousandths) > MAX_THOUSANDTHS)
    return putText(from, JSON.stringify(value));
  let at = from;
  if (thousandths < 0) buffer[at++] = MINUS;
  const size = Math.abs(thousandths) | 0;
  const whole = (size / 1000) | 0;
  at = putDigits(at, whole, digitsOf(whole));
  let decimals = size - whole * 1000;
  if (decimals === 0) return at;
  buffer[at++] = POINT;
  let digits = 3;
  while (decimals % 10 === 0) {
    decimals = (decimals / 10) | 0;
    digits--;
  }
  return putDigits(at, decimals, digits);
}

function digitsOf(value: number): number {
  let digits = 1;
  for (let over = 10; value >= over; over *= 10) digits++;
  return digits;
}

/** A whole number with noughts before it, from its last digit on. */
function putDigits(at: number, value: number, digits: number): number {
  let rest = value;
  for (let i = at + digits - 1; i >= at; i--) {
    const tenth = (rest / 10) | 0;
    buffer[i] = ZERO + rest - 10 * tenth;
    rest = tenth;
  }
  return at + digits;
}
