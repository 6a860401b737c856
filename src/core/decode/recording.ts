/**
 * One line of a recording (contract, section 6): an MQTT message with its arrival time, an act of a
 * person, or nothing of ours. The payload is handed on as the bytes that stand in the line, so that
 * a replay reads packs the way the broker's messages are read, and the same pack sent twice is the
 * same bytes here too.
 */
import { utf8Text } from './json/json-bytes.ts';
import { NOT_FOUND, spaceEnd, plainStringEnd, bytesEqual } from './json/json-scan.ts';
import { valueEnd } from './json/json-skip.ts';
import { parseRecordingTime, parseIsoTimeBytes } from './recording-time.ts';
import { isJsonObject } from './senml/senml.ts';
import { PRESENCES } from './wire-enums.ts';

export type RecordedLine =
  | { is: 'message'; tstMs: number; topic: string; payload: Uint8Array; retained: boolean }
  /** The act as it stands in the line; src/core/domain/ reads and checks it. */
  | { is: 'act'; tstMs: number; act: unknown }
  | { is: 'ignored'; reason: 'blank' | 'not-json' | 'no-time' | 'no-message' };

export interface RecordedMessage {
  tstMs: number;
  topic: string;
  payload: Uint8Array;
  retained: boolean;
}

const QUOTE = 0x22;
const COMMA = 0x2c;
const COLON = 0x3a;
const OPEN = 0x7b;
const CLOSE = 0x7d;

/** `tst` and `retain` are what other MQTT clients that print JSON write for `at` and `retained`. */
const KEYS = ['at', 'topic', 'payload', 'payload64', 'retained', 'act', 'tst', 'retain'] as const;
type Key = (typeof KEYS)[number];
const KEY_BYTES = KEYS.map((key) => textBytes(key));

/** The values of the keys we know, as the bytes they are in the line. */
type Slices = Partial<Record<Key, Uint8Array>>;

/**
 * Reads one line without its line end. The payload is a view into `line`: it lives as long as those
 * bytes do. Never throws.
 */
export function parseRecordingLine(line: Uint8Array): RecordedLine {
  if (spaceEnd(line, 0) === line.length) return { is: 'ignored', reason: 'blank' };
  const slices = slicesOf(line) ?? slicesByParsing(line);
  if (slices === undefined) return { is: 'ignored', reason: 'not-json' };
  const time = slices.at ?? slices.tst;
  const tstMs = time && readTime(time);
  if (tstMs === undefined) return { is: 'ignored', reason: 'no-time' };
  if (slices.act !== undefined) {
    const act = valueOf(slices.act);
    return act === undefined ? { is: 'ignored', reason: 'not-json' } : { is: 'act', tstMs, act };
  }
  const topic = slices.topic && topicOf(slices.topic);
  if (topic === undefined) return { is: 'ignored', reason: 'no-message' };
  const retained = isRetained(slices.retained ?? slices.retain);
  return { is: 'message', tstMs, topic, payload: payloadOf(slices), retained };
}

/**
 * The line's own values, found without parsing them, or undefined where it is no object with plain
 * keys.
 */
function slicesOf(line: Uint8Array): Slices | undefined {
  const slices: Slices = {};
  let at = spaceEnd(line, 0);
  if (line[at] !== OPEN) return undefined;
  do {
    const keyAt = spaceEnd(line, at + 1);
    const keyEnd = line[keyAt] === QUOTE ? plainStringEnd(line, keyAt + 1) : NOT_FOUND;
    if (keyEnd === NOT_FOUND) return undefined;
    at = spaceEnd(line, keyEnd + 1);
    if (line[at] !== COLON) return undefined;
    const from = spaceEnd(line, at + 1);
    const to = valueEnd(line, from);
    if (to === NOT_FOUND) return undefined;
    const key = keyOf(line, keyAt + 1, keyEnd);
    if (key !== undefined) slices[key] = line.subarray(from, to);
    at = spaceEnd(line, to);
  } while (line[at] === COMMA);
  return line[at] === CLOSE && spaceEnd(line, at + 1) === line.length ? slices : undefined;
}

function keyOf(line: Uint8Array, from: number, to: number): Key | undefined {
  for (let i = 0; i < KEYS.length; i++) if (bytesEqual(line, from, to, KEY_BYTES[i]!)) return KEYS[i];
  return undefined;
}

/** The time in a quoted text; the usual form is read from its bytes. */
function readTime(quoted: Uint8Array): number | undefined {
  const isoMs = parseIsoTimeBytes(quoted);
  if (isoMs !== undefined) return isoMs;
  const text = valueOf(quoted);
  return typeof text === 'string' ? parseRecordingTime(text) : undefined;
}

/**
 * Topics come again and again, a few of each node: each is made a text once while it is among the
 * last ones seen.
 */
const MAX_CACHED_TOPICS = 16;
const topicCache: { bytes: Uint8Array; text: string }[] = [];

function topicOf(quoted: Uint8Array): string | undefined {
  for (const { bytes, text } of topicCache) if (bytesEqual(quoted, 0, quoted.length, bytes)) return text;
  const text = valueOf(quoted);
  if (typeof text !== 'string') return undefined;
  if (topicCache.length === MAX_CACHED_TOPICS) topicCache.shift();
  topicCache.push({ bytes: quoted.slice(), text });
  return text;
}

function isRetained(flag: Uint8Array | undefined): boolean {
  if (flag === undefined) return false;
  const value = valueOf(flag);
  return value === 1 || value === true;
}

/** The long way, for a line that is written in an unusual manner. */
function slicesByParsing(line: Uint8Array): Slices | undefined {
  const parsed = valueOf(line);
  if (!isJsonObject(parsed)) return undefined;
  const slices: Slices = {};
  for (const key of KEYS)
    if (Object.hasOwn(parsed, key)) slices[key] = textBytes(JSON.stringify(parsed[key]));
  return slices;
}

/**
 * What stands in `payload` as JSON is the message; a text there is the message's text; null is a
 * message without bytes.
 */
function payloadOf({ payload, payload64 }: Slices): Uint8Array {
  const base64 = valueOf(payload64);
  if (typeof base64 === 'string') return new Uint8Array(Buffer.from(base64, 'base64'));
  if (payload === undefined || payload[0] === 0x6e) return new Uint8Array();
  const text = payload[0] === QUOTE ? valueOf(payload) : undefined;
  return typeof text === 'string' ? textBytes(text) : payload;
}

/** The value of JSON bytes; undefined where they are none. */
function valueOf(bytes: Uint8Array | undefined): unknown {
  if (bytes === undefined) return undefined;
  try {
    return JSON.parse(utf8Text(bytes) ?? '') as unknown;
  } catch {
    return undefined;
  }
}

function textBytes(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** One line, without its line end, from which parseRecordingLine gives the same message back. */
export function formatMessageLine({ tstMs, topic, payload, retained }: RecordedMessage): string {
  const head = `{"at":"${new Date(tstMs).toISOString()}","topic":${JSON.stringify(topic)}${retained ? ',"retained":true' : ''}`;
  const text = payloadText(payload);
  if (text !== undefined) return `${head},"payload":${text}}`;
  return `${head},"payload64":"${Buffer.from(payload).toString('base64')}"}`;
}

/** One line for what a person did. */
export function formatActLine(tstMs: number, act: unknown): string {
  return JSON.stringify({ at: new Date(tstMs).toISOString(), act });
}

/** The payload as JSON to stand in a line, or undefined where only its bytes say it truly. */
function payloadText(payload: Uint8Array): string | undefined {
  const text = utf8Text(payload);
  if (text === undefined) return undefined;
  const value = valueOf(payload);
  if (value === undefined) return isPresenceWord(text) ? JSON.stringify(text) : undefined;
  if (typeof value === 'string') return isPresenceWord(value) ? JSON.stringify(value) : undefined;
  if (value === null) return undefined;
  return /[\r\n]/.test(text) ? JSON.stringify(value) : text.trim();
}

/**
 * `here` and `"here"` read the same, so either may be written as text; any other text could be
 * taken for the JSON in it.
 */
function isPresenceWord(text: string): boolean {
  return PRESENCES.some((word) => word === text);
}
