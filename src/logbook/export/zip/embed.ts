/**
 * The record inside the packet's page, so that the page alone can be read in again: a block of data
 * (HTML, `script` with a type that no browser runs). A short one stands there line by line, for
 * eyes; a long one is deflated (RFC 1951) and written as base64 (RFC 4648).
 */
import { deflateSync, strFromU8, strToU8 } from 'fflate';
import { inflateExactly } from '../inflate.ts';

/** The attributes of its element, in their order. */
export const RECORD_BLOCK = { type: 'application/json', id: 'stillwell-record' } as const;
const OPEN_TAG = `<script type="${RECORD_BLOCK.type}" id="${RECORD_BLOCK.id}">`;
const CLOSE_TAG = '</script>';
/** As much as somebody may still want to read. */
const MAX_PLAIN_LENGTH = 50_000;
/** See MAX_RECORD_BYTES: what it may unpack to is asked for by the reader. */
const LEVEL = 6;

export function recordData(text: string): string {
  const data =
    text.length <= MAX_PLAIN_LENGTH
      ? { encoding: 'lines', data: text.split('\n') }
      : { encoding: 'deflate-base64', ...compressText(text) };
  // No "<" may stand in it: "</script>" would end it.
  return JSON.stringify(data).replaceAll('<', '\\u003c');
}

function compressText(text: string): { bytes: number; data: string } {
  const bytes = strToU8(text);
  return { bytes: bytes.length, data: toBase64(deflateSync(bytes, { level: LEVEL })) };
}

/** The text of the record, or undefined where the page holds none that can be read. */
export function extractRecord(html: string, maxBytes: number): string | undefined {
  const from = html.lastIndexOf(OPEN_TAG);
  const to = from < 0 ? -1 : html.indexOf(CLOSE_TAG, from);
  if (to < 0) return undefined;
  try {
    return decompressText(JSON.parse(html.slice(from + OPEN_TAG.length, to)), maxBytes);
  } catch {
    return undefined;
  }
}

function decompressText(block: unknown, maxBytes: number): string | undefined {
  if (typeof block !== 'object' || block === null || !('data' in block)) return undefined;
  const { data } = block;
  if (Array.isArray(data) && data.every((line) => typeof line === 'string')) return data.join('\n');
  const bytes = 'bytes' in block ? block.bytes : undefined;
  if (typeof data !== 'string' || typeof bytes !== 'number' || !(bytes > 0 && bytes <= maxBytes))
    return undefined;
  const unpackedBytes = inflateExactly(fromBase64(data), bytes);
  return unpackedBytes && strFromU8(unpackedBytes);
}

/**
 * In pieces: a function takes only so many arguments. 3 bytes are 4 letters, so pieces of a
 * multiple of 3 join without seams.
 */
const CHUNK = 3 * 8_192;

function toBase64(bytes: Uint8Array): string {
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += CHUNK)
    parts.push(btoa(String.fromCharCode(...bytes.subarray(at, at + CHUNK))));
  return parts.join('');
}

function fromBase64(text: string): Uint8Array {
  return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
}
