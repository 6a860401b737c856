/**
 * A place in JSON bytes, and the few steps that plain JSON needs: a number, a word, a mark. Each step says false where it meets
 * anything but its plain form (an escape, an exponent, more digits than are exact): the caller then leaves the whole text to JSON.parse.
 * A number that is taken is the very double that JSON.parse gives.
 */
export interface Cursor {
  bytes: Uint8Array;
  at: number;
  /** The last number taken. */
  number: number;
  /** Where the last word taken stands, without its quotes. */
  from: number;
  to: number;
}

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const MINUS = 0x2d;
const DOT = 0x2e;
const ZERO = 0x30;
const NINE = 0x39;
const SPACE = 0x20;
const TILDE = 0x7e;

/** 10^0 to 10^22 are exact doubles, so integer / power is rounded once, as it should be (W. D. Clinger, 1990). */
const POWERS = Float64Array.from({ length: 23 }, (_, n) => Number(`1e${n}`));
const MOST_DIGITS = 16;

export function cursorAt(bytes: Uint8Array, at: number): Cursor {
  return { bytes, at, number: 0, from: 0, to: 0 };
}

/** Takes a number without exponent, of digits that a double holds exactly. */
export function takeNumber(c: Cursor): boolean {
  const { bytes } = c;
  let at = c.at;
  let d = bytes[at]!;
  const negative = d === MINUS;
  if (negative) d = bytes[++at]!;
  const intAt = at;
  let digits = 0;
  let m = 0;
  while (d >= ZERO && d <= NINE) {
    m = m * 10 + (d - ZERO);
    d = bytes[++at]!;
  }
  digits = at - intAt;
  if (digits === 0 || (digits > 1 && bytes[intAt] === ZERO)) return false;
  let fraction = 0;
  if (d === DOT) {
    const dotAt = at;
    d = bytes[++at]!;
    while (d >= ZERO && d <= NINE) {
      m = m * 10 + (d - ZERO);
      d = bytes[++at]!;
    }
    fraction = at - dotAt - 1;
    if (fraction === 0) return false;
  }
  if (digits + fraction > MOST_DIGITS || m > Number.MAX_SAFE_INTEGER || (d | SPACE) === 0x65) return false;
  const size = fraction === 0 ? m : m / POWERS[fraction]!;
  c.number = negative ? -size : size;
  c.at = at;
  return true;
}

/** Takes a string of printable ASCII without escapes. */
export function takeWord(c: Cursor): boolean {
  const { bytes } = c;
  let at = c.at;
  if (bytes[at] !== QUOTE) return false;
  c.from = ++at;
  let ch = bytes[at]!;
  while (ch !== QUOTE) {
    if (!(ch >= SPACE && ch <= TILDE) || ch === BACKSLASH) return false;
    ch = bytes[++at]!;
  }
  c.to = at;
  c.at = at + 1;
  return true;
}

/** Takes this mark with the white space on both sides of it. */
export function takeMark(c: Cursor, mark: number): boolean {
  const { bytes } = c;
  if (bytes[c.at]! <= SPACE) skipSpace(c);
  if (bytes[c.at] !== mark) return false;
  c.at++;
  if (bytes[c.at]! <= SPACE) skipSpace(c);
  return true;
}

export function skipSpace(c: Cursor): void {
  for (;;) {
    const ch = c.bytes[c.at];
    if (ch !== SPACE && ch !== 0x0a && ch !== 0x0d && ch !== 0x09) return;
    c.at++;
  }
}

/** True where the last word is these bytes. */
export function wordIs(c: Cursor, bytes: Uint8Array): boolean {
  const { length } = bytes;
  if (c.to - c.from !== length) return false;
  for (let i = 0; i < length; i++) if (c.bytes[c.from + i] !== bytes[i]) return false;
  return true;
}

/** The last word as text. */
export function wordText(c: Cursor): string {
  return String.fromCharCode(...c.bytes.subarray(c.from, c.to));
}
