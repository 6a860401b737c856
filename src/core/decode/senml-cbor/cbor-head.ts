/**
 * The head of one CBOR item (RFC 8949, section 3): its major type, and the number, the length or
 * the float that its first bytes hold. One head is read into again and again, so that a pack makes
 * no garbage. Items of a length that is not said, tags, and integers that a double cannot hold are
 * not read: they are for a decoder that knows all of CBOR.
 */
export interface CborHead {
  major: number;
  /** The low five bits of the first byte: the argument itself, or how long it is. */
  info: number;
  /** Of an integer, list, map or text: the number, or how many items or bytes follow. */
  argument: number;
  /** Where the head ends, and the item too unless something follows. */
  end: number;
}

export const UNSIGNED = 0;
export const NEGATIVE = 1;
export const TEXT = 3;
export const LIST = 4;
export const MAP = 5;
/** Booleans and floats. */
export const SIMPLE = 7;

const TAG = 6;
const BYTE = 24;
const HALF = 25;
const SINGLE = 26;
const DOUBLE = 27;

export function newHead(): CborHead {
  return { major: 0, info: 0, argument: 0, end: 0 };
}

/** Reads the head at `at`; false where there is none of those that are read here. */
export function readHead(head: CborHead, view: DataView, at: number): boolean {
  if (at >= view.byteLength) return false;
  const first = view.getUint8(at);
  const info = first & 31;
  head.major = first >> 5;
  head.info = info;
  head.end = at + 1 + (info < BYTE ? 0 : 1 << (info - BYTE));
  if (info > DOUBLE || head.major === TAG || head.end > view.byteLength) return false;
  if (head.major === SIMPLE) return true;
  head.argument = info < BYTE ? info : argumentAt(view, at + 1, info);
  return Number.isSafeInteger(head.argument);
}

function argumentAt(view: DataView, at: number, info: number): number {
  if (info === BYTE) return view.getUint8(at);
  if (info === HALF) return view.getUint16(at);
  if (info === SINGLE) return view.getUint32(at);
  return view.getUint32(at) * 2 ** 32 + view.getUint32(at + 4);
}

/** Where this integer, float, boolean or text ends. */
export function itemEnd({ major, argument, end }: CborHead): number {
  return major === TEXT ? end + argument : end;
}

/** The number that this item is, or NaN where it is none. */
export function numberOf({ major, info, argument, end }: CborHead, view: DataView): number {
  if (major === UNSIGNED) return argument;
  if (major === NEGATIVE) return -1 - argument;
  if (major !== SIMPLE) return Number.NaN;
  if (info === DOUBLE) return view.getFloat64(end - 8);
  if (info === SINGLE) return view.getFloat32(end - 4);
  return info === HALF ? halfOf(view.getUint16(end - 2)) : Number.NaN;
}

/** True for a float of fewer bits than a double. */
export function isShortFloat({ major, info }: CborHead): boolean {
  return major === SIMPLE && info < DOUBLE;
}

/** A half-precision float (RFC 8949, appendix D). */
function halfOf(bits: number): number {
  const exponent = (bits >> 10) & 31;
  const mantissa = bits & 1023;
  const sign = (bits & 0x8000) === 0 ? 1 : -1;
  if (exponent === 0) return sign * mantissa * 2 ** -24;
  if (exponent === 31) return mantissa === 0 ? sign * Infinity : Number.NaN;
  return sign * (mantissa + 1024) * 2 ** (exponent - 25);
}
