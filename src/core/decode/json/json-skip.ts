/**
 * Where a JSON value ends, found by its brackets and quotes alone: enough to hand a recording's
 * payload on as the bytes it is. What stands between them is judged by whoever reads that payload.
 */
import { NOT_FOUND } from './json-scan.ts';

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const OPEN_LIST = 0x5b;
const CLOSE_LIST = 0x5d;
const OPEN = 0x7b;
const CLOSE = 0x7d;

/** Index after the value that starts here, or NOWHERE where the bytes end before it does. */
export function valueEnd(bytes: Uint8Array, from: number): number {
  const ch = bytes[from];
  if (ch === QUOTE) return stringEnd(bytes, from);
  if (ch === OPEN || ch === OPEN_LIST) return bracketEnd(bytes, from);
  return scalarEnd(bytes, from);
}

function stringEnd(bytes: Uint8Array, from: number): number {
  for (let at = from + 1; at < bytes.length; at++) {
    const ch = bytes[at];
    if (ch === BACKSLASH) at++;
    else if (ch === QUOTE) return at + 1;
  }
  return NOT_FOUND;
}

function bracketEnd(bytes: Uint8Array, from: number): number {
  let depth = 0;
  for (let at = from; at < bytes.length; at++) {
    const ch = bytes[at]!;
    if (ch === QUOTE) {
      at = stringEnd(bytes, at) - 1;
      if (at < from) return NOT_FOUND;
    } else if (ch === OPEN || ch === OPEN_LIST) depth++;
    else if ((ch === CLOSE || ch === CLOSE_LIST) && --depth === 0) return at + 1;
  }
  return NOT_FOUND;
}

/** A number, true, false or null: letters, digits, signs and dots. */
function scalarEnd(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && isScalarByte(bytes[at]!)) at++;
  return at === from ? NOT_FOUND : at;
}

function isScalarByte(ch: number): boolean {
  return (
    (ch >= 0x30 && ch <= 0x39) ||
    (ch >= 0x61 && ch <= 0x7a) ||
    ch === 0x2d ||
    ch === 0x2b ||
    ch === 0x2e ||
    ch === 0x45
  );
}
