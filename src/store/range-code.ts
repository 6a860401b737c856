/**
 * An entropy coder for small whole numbers: a range variant of asymmetric numeral systems (J. Duda, "Asymmetric numeral systems",
 * arXiv 1311.2540) with one table of shares for each list. It comes within a per cent of the entropy, where a Huffman code (deflate)
 * loses 3 to 5 % on numbers of two bits, and it reads a number in a few nanoseconds.
 *
 * Signed numbers are folded to 0, 1, 2 … (0, -1, 1, -2 …). Folded ones under a limit are symbols of their own; a larger one is its power
 * of two and next two bits as symbol, the rest as bits. The limit is one of two: a narrow list saves table, a wide one (a current that
 * runs at 7.91 A or rests at 0) saves bits.
 */
import { putByte, putBytes, putCount, reserve, takeByte, takeBytes, takeCount } from './bytes.ts';
import type { Sink, Source } from './bytes.ts';

const SHARE_BITS = 12;
const SHARES = 1 << SHARE_BITS;
const LOWEST = 1 << 15;

/** Powers of two of the limit. */
export const NARROW = 7;
export const WIDE = 11;
export type Width = typeof NARROW | typeof WIDE;

/** What each direct symbol stands for. */
const DIRECT_VALUES = Float64Array.from({ length: 1 << WIDE }, (_, s) => unfold(s));

/** Up to 2^53 in four symbols a power of two. */
function symbolsOf(width: Width): number {
  return (1 << width) + (53 - width) * 4;
}

function fold(value: number): number {
  return value < 0 ? -2 * value - 1 : 2 * value;
}

function unfold(value: number): number {
  return value % 2 === 0 ? value / 2 : -(value + 1) / 2;
}

function symbolOf(value: number, width: Width): number {
  if (value < 1 << width) return value;
  const power = powerOf(value);
  return (1 << width) + (power - width) * 4 + (Math.floor(value / 2 ** (power - 2)) & 3);
}

/** The power of two at or below. `Math.log2` may round up just under a power, so it is corrected. */
function powerOf(value: number): number {
  if (value < 0x80000000) return 31 - Math.clz32(value);
  const power = Math.floor(Math.log2(value));
  return 2 ** power > value ? power - 1 : power;
}

/** Shares of each symbol, summing up to SHARES, at least 1 for one that occurs. What rounding leaves over the largest gives or takes. */
function sharesOf(counts: Float64Array, n: number): Uint16Array {
  const shares = new Uint16Array(counts.length);
  let left = SHARES;
  for (let s = 0; s < counts.length; s++) {
    if (counts[s] === 0) continue;
    shares[s] = Math.max(1, Math.round((counts[s]! * SHARES) / n));
    left -= shares[s]!;
  }
  while (left !== 0) {
    const largest = shares.indexOf(shares.reduce((a, b) => Math.max(a, b), 0));
    const change = Math.max(left, -(shares[largest]! >> 1));
    shares[largest] = shares[largest]! + change;
    left -= change;
  }
  return shares;
}

function startsOf(shares: Uint16Array): Uint16Array {
  const starts = new Uint16Array(shares.length);
  for (let s = 1; s < shares.length; s++) starts[s] = starts[s - 1]! + shares[s - 1]!;
  return starts;
}

/** A symbol in the table takes about so many bits. */
const TABLE_BITS = 10;

/** Bits that a list of `size` numbers like the first `n` of `values` would take, table included: for choosing between two ways. */
export function bitsOf(values: Float64Array, n: number, size: number, width: Width): number {
  const counts = new Float64Array(symbolsOf(width));
  const direct = 1 << width;
  let bits = 0;
  let highest = 0;
  for (let i = 0; i < n; i++) {
    const value = fold(values[i]!);
    let symbol = value;
    if (value >= direct) {
      symbol = symbolOf(value, width);
      bits += powerOf(value) - 2;
    }
    counts[symbol] = counts[symbol]! + 1;
    if (symbol > highest) highest = symbol;
  }
  let table = 0;
  for (let s = 0; s <= highest; s++) {
    const count = counts[s]!;
    if (count === 0) continue;
    bits -= count * Math.log2(count / n);
    table += TABLE_BITS;
  }
  return (bits * size) / n + table;
}

/** Writes the first `n` values, whole numbers of at most 2^51 in size. */
export function putCoded(sink: Sink, values: Float64Array, n: number, width: Width): void {
  if (n === 0) return;
  const symbols = new Uint16Array(n);
  const counts = new Float64Array(symbolsOf(width));
  const direct = 1 << width;
  const rest: BitSink = { bytes: [], hold: 0, bits: 0 };
  for (let i = 0; i < n; i++) {
    const value = fold(values[i]!);
    const symbol = symbolOf(value, width);
    symbols[i] = symbol;
    counts[symbol] = counts[symbol]! + 1;
    if (value >= direct) putRest(rest, value);
  }
  const shares = sharesOf(counts, n);
  putByte(sink, width);
  putShares(sink, shares);
  putWords(sink, symbols, shares);
  flushBits(rest);
  putBytes(sink, Uint8Array.from(rest.bytes));
}

function putShares(sink: Sink, shares: Uint16Array): void {
  let used = shares.length;
  while (shares[used - 1] === 0) used -= 1;
  putCount(sink, used);
  for (let s = 0; s < used; s++) {
    putCount(sink, shares[s]!);
    if (shares[s] !== 0) continue;
    let run = 1;
    while (shares[s + run] === 0) run += 1;
    putCount(sink, run);
    s += run - 1;
  }
}

function takeShares(source: Source, symbols: number): Uint16Array {
  const shares = new Uint16Array(symbols);
  const used = takeCount(source);
  let sum = 0;
  for (let s = 0; s < used; s++) {
    const share = takeCount(source);
    if (share === 0) s += takeCount(source) - 1;
    else {
      if (s >= symbols) break;
      shares[s] = share;
      sum += share;
    }
  }
  if (sum !== SHARES)
    throw new RangeError(`Cannot read coded numbers: shares must sum up to ${SHARES}: ${sum}`);
  return shares;
}

/** The last symbol is coded first, so that reading goes forwards. */
function putWords(sink: Sink, symbols: Uint16Array, shares: Uint16Array): void {
  const starts = startsOf(shares);
  const words = new Uint16Array(symbols.length + 2);
  let at = words.length;
  let state = LOWEST;
  for (let i = symbols.length - 1; i >= 0; i--) {
    const s = symbols[i]!;
    const share = shares[s]!;
    // A share of everything leaves the state as it is (and the limit below would overflow).
    if (share === SHARES) continue;
    if (state >= share << (31 - SHARE_BITS)) {
      words[--at] = state & 0xffff;
      state >>>= 16;
    }
    state = (((state / share) | 0) << SHARE_BITS) + (state % share) + starts[s]!;
  }
  const size = words.length - at;
  putCount(sink, size);
  putCount(sink, state);
  reserve(sink, size * 2);
  for (let i = at; i < words.length; i++) sink.at = sink.bytes.writeUInt16LE(words[i]!, sink.at);
}

/** Reads `n` values into `to`. */
export function takeCoded(source: Source, to: Float64Array, n: number): void {
  if (n === 0) return;
  const width = takeByte(source);
  if (width !== NARROW && width !== WIDE)
    throw new RangeError(`Cannot read coded numbers: there is no width ${width}`);
  const direct = 1 << width;
  const shares = takeShares(source, symbolsOf(width));
  const size = takeCount(source);
  let state = takeCount(source);
  const words = takeBytes(source, size * 2);
  const starts = startsOf(shares);
  const symbolAt = new Uint16Array(SHARES);
  for (let s = 0; s < shares.length; s++) symbolAt.fill(s, starts[s], starts[s]! + shares[s]!);
  let at = 0;
  const large: number[] = [];
  for (let i = 0; i < n; i++) {
    const slot = state & (SHARES - 1);
    const s = symbolAt[slot]!;
    state = Math.imul(shares[s]!, state >>> SHARE_BITS) + slot - starts[s]!;
    if (state < LOWEST) {
      state = (state << 16) | words[at]! | (words[at + 1]! << 8);
      at += 2;
    }
    if (s < direct) to[i] = DIRECT_VALUES[s]!;
    else {
      to[i] = s;
      large.push(i);
    }
  }
  if (at !== words.length)
    throw new RangeError('Cannot read coded numbers: the words do not end where the list does');
  takeRests(source, to, large, width);
}

interface BitSink {
  bytes: number[];
  hold: number;
  bits: number;
}

function putBits(sink: BitSink, value: number, bits: number): void {
  sink.hold |= value << sink.bits;
  sink.bits += bits;
  while (sink.bits >= 8) {
    sink.bytes.push(sink.hold & 255);
    sink.hold >>>= 8;
    sink.bits -= 8;
  }
}

/** At most 16 bits at a time, so that what is held never passes 31. */
function putRest(sink: BitSink, value: number): void {
  let bits = powerOf(value) - 2;
  let rest = value % 2 ** bits;
  for (; bits > 16; bits -= 16) {
    putBits(sink, rest % 65536, 16);
    rest = Math.floor(rest / 65536);
  }
  putBits(sink, rest, bits);
}

function flushBits(sink: BitSink): void {
  if (sink.bits > 0) sink.bytes.push(sink.hold & 255);
  sink.hold = 0;
  sink.bits = 0;
}

/** Where a large number's symbol stands comes the number itself. */
function takeRests(source: Source, to: Float64Array, large: readonly number[], width: Width): void {
  const direct = 1 << width;
  const { bytes } = source;
  let hold = 0;
  let held = 0;
  const take = (bits: number): number => {
    while (held < bits) {
      if (source.at >= bytes.length) throw new RangeError('Cannot read coded numbers: they end too early');
      hold |= bytes[source.at++]! << held;
      held += 8;
    }
    const value = hold & ((1 << bits) - 1);
    hold >>>= bits;
    held -= bits;
    return value;
  };
  for (const i of large) {
    const symbol = to[i]!;
    const power = ((symbol - direct) >> 2) + width;
    let value = (4 + ((symbol - direct) & 3)) * 2 ** (power - 2);
    let bits = power - 2;
    let weight = 1;
    for (; bits > 16; bits -= 16) {
      value += take(16) * weight;
      weight *= 65536;
    }
    to[i] = unfold(value + take(bits) * weight);
  }
}
