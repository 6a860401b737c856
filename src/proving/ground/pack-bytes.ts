/**
 * The bytes of a pack, written digit by digit: the proving ground sends some thousand million readings, and objects on the way would
 * cost more than all that is proved. What is written is what src/wire/encode-pack.ts would write.
 */
import type { FaultCode } from '../../wire/messages.ts';

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
export interface Label {
  /** `"n":"current","u":"A"` */
  text: Uint8Array;
  isContact: boolean;
}

/** The contract's most records of one pack. */
export const MOST_RECORDS = 2000;
/** The contract's largest payload. */
const MOST_BYTES = 128 << 10;

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);
const NEXT = ascii(',{');
const TIME = ascii(',"t":');
const VALUE = ascii(',"v":');
const END = 0x7d;
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

const buffer = new Uint8Array(MOST_BYTES);
let at = 0;

export function newRecords(): Records {
  return {
    n: 0,
    channel: new Uint8Array(MOST_RECORDS),
    timeMs: new Float64Array(MOST_RECORDS),
    value: new Float64Array(MOST_RECORDS),
    fault: new Uint8Array(MOST_RECORDS),
  };
}

export function newLabel(channel: string, unit: string): Label {
  const text = unit === '' ? `"n":"${channel}"` : `"n":"${channel}","u":"${unit}"`;
  return { text: ascii(text), isContact: channel.endsWith('contact') };
}

/** SenML JSON bytes of the records, whose times are ms after time 0 of the stamp. */
export function packBytes(
  node: string,
  stamp: PackStamp,
  labels: readonly Label[],
  records: Records,
): Uint8Array {
  at = 0;
  putText(`[{${stampText(node, stamp)}`);
  for (let i = 0; i < records.n; i++) {
    if (i > 0) put(NEXT);
    const label = labels[records.channel[i]!]!;
    put(label.text);
    if (records.timeMs[i] !== 0) {
      put(TIME);
      putNumber(records.timeMs[i]! / 1000);
    }
    const fault = records.fault[i] as FaultCode;
    if (fault !== 0) put(FAULTS[fault]);
    else if (label.isContact) put(records.value[i] === 0 ? FALSE : TRUE);
    else {
      put(VALUE);
      putNumber(records.value[i]!);
    }
    buffer[at++] = END;
  }
  buffer[at++] = 0x5d;
  return buffer.slice(0, at);
}

function stampText(node: string, { boot, seq, first, baseMs, upMs }: PackStamp): string {
  return (
    `"bn":"${node}:",${baseMs === undefined ? '' : `"bt":${baseMs / 1000},`}"boot":${boot},"seq":${seq},` +
    `${first === undefined ? '' : `"first":${first},`}${upMs === undefined ? '' : `"up":${upMs / 1000},`}`
  );
}

function put(bytes: Uint8Array): void {
  for (let i = 0; i < bytes.length; i++) buffer[at + i] = bytes[i]!;
  at += bytes.length;
}

function putText(text: string): void {
  for (let i = 0; i < text.length; i++) buffer[at++] = text.charCodeAt(i);
}

/** Up to three decimals digit by digit; what has more is printed as JSON does. */
function putNumber(value: number): void {
  const thousandths = Math.round(value * 1000);
  if (thousandths / 1000 !== value || Math.abs(thousandths) > 0x3fffffff) {
    putText(JSON.stringify(value));
    return;
  }
  let rest = thousandths;
  if (rest < 0) {
    buffer[at++] = MINUS;
    rest = -rest;
  }
  const whole = Math.trunc(rest / 1000);
  putWhole(whole);
  let decimals = rest - whole * 1000;
  if (decimals === 0) return;
  buffer[at++] = POINT;
  for (let unit = 100; decimals > 0; unit = Math.trunc(unit / 10)) {
    const digit = Math.trunc(decimals / unit);
    buffer[at++] = ZERO + digit;
    decimals -= digit * unit;
  }
}

function putWhole(value: number): void {
  let unit = 1;
  while (unit * 10 <= value) unit *= 10;
  for (let rest = value; unit >= 1; unit = Math.trunc(unit / 10)) {
    const digit = Math.trunc(rest / unit);
    buffer[at++] = ZERO + digit;
    rest -= digit * unit;
  }
}
