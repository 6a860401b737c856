/**
 * Plain JSON told from its bytes: where a number or a string ends, and the double that a number's
 * digits are. Each step answers `NOT_FOUND` (or NaN) where it meets anything but the plain form (an
 * escape, an exponent, more digits than are exact): the caller then leaves the whole text to
 * JSON.parse. A number that is taken is the very double that JSON.parse gives.
 */
export const NOT_FOUND = -1;

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const MINUS = 0x2d;
const DOT = 0x2e;
const ZERO = 0x30;
const NINE = 0x39;
const SPACE = 0x20;
const TILDE = 0x7e;

/**
 * 10^0 to 10^22 are exact doubles, so integer / power is rounded once, as it should be (W. D.
 * Clinger, 1990).
 */
const POWERS = Float64Array.from({ length: 23 }, (_, n) => Number(`1e${n}`));
const MAX_DIGITS = 16;

/** Where the white space from here on ends. */
export function spaceEnd(bytes: Uint8Array, at: number): number {
  let ch = bytes[at]!;
  while (ch <= SPACE && (ch === SPACE || ch === 0x0a || ch === 0x0d || ch === 0x09)) ch = bytes[++at]!;
  return at;
}

/** Where the run of digits, dots and signs from here on ends. */
export function numberEnd(bytes: Uint8Array, at: number): number {
  let ch = bytes[at]!;
  while ((ch >= ZERO && ch <= NINE) || ch === DOT || ch === MINUS) ch = bytes[++at]!;
  return at;
}

/**
 * The number written in these bytes, or NaN where they are no JSON number without exponent of at
 * most 16 exact digits.
 */
export function parseNumberBytes(bytes: Uint8Array, from: number, to: number): number {
  const negative = bytes[from] === MINUS;
  const intFrom = negative ? from + 1 : from;
  let at = intFrom;
  let m = 0;
  let ch = 0;
  while (at < to && (ch = bytes[at]!) >= ZERO && ch <= NINE) {
    m = m * 10 + (ch - ZERO);
    at++;
  }
  const digits = at - intFrom;
  if (digits === 0 || (digits > 1 && bytes[intFrom] === ZERO)) return Number.NaN;
  if (at === to) return digits > MAX_DIGITS || m > Number.MAX_SAFE_INTEGER ? Number.NaN : negative ? -m : m;
  if (ch !== DOT) return Number.NaN;
  const pointAt = at++;
  while (at < to && (ch = bytes[at]!) >= ZERO && ch <= NINE) {
    m = m * 10 + (ch - ZERO);
    at++;
  }
  const places = at - pointAt - 1;
  if (at !== to || places === 0 || digits + places > MAX_DIGITS || m > Number.MAX_SAFE_INTEGER)
    return Number.NaN;
  const size = m / POWERS[places]!;
  return negative ? -size : size;
}

/**
 * Where the closing quote of a string of printable ASCII without escapes stands; `from` is after
 * its opening quote.
 */
export function plainStringEnd(bytes: Uint8Array, from: number): number {
  let at = from;
  let ch = bytes[at]!;
  while (ch !== QUOTE) {
    if (!(ch >= SPACE && ch <= TILDE) || ch === BACKSLASH) return NOT_FOUND;
    ch = bytes[++at]!;
  }
  return at;
}

/** True where these bytes are this word. */
export function bytesEqual(bytes: Uint8Array, from: number, to: number, word: Uint8Array): boolean {
  const { length } = word;
  if (to - from !== length) return false;
  for (let i = 0; i < length; i++) if (bytes[from + i] !== word[i]) return false;
  return true;
}
