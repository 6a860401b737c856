/**
 * An entropy coder for small whole numbers: a range variant of asymmetric numeral systems (J. Duda,
 * "Asymmetric numeral systems", arXiv 1311.2540) with one table of shares for each list. It comes
 * within a per cent of the entropy, where a Huffman code (deflate) loses 3 to 5 % on numbers of two
 * bits, and it reads a number in a few nanoseconds.
 *
 * Signed numbers are folded to 0, 1, 2 … (0, -1, 1, -2 …). Folded ones under a limit are symbols of
 * their own; a larger one is its power of two and next two bits as symbol, the rest as bits. The
 * limit is one of two: a narrow list saves table, a wide one (a current that runs at 7.91 A or
 * rests at 0) saves bits.
 */
import { writeByte, writeBytes, writeVarint, reserve, readByte, readBytes, readVarint } from './bytes.ts';
import type { ByteSink, ByteSource } from './bytes.ts';

const FREQUENCY_BITS = 12;
const TOTAL_FREQUENCY = 1 << FREQUENCY_BITS;
const MIN_STATE = 1 << 15;

/** Powers of two of the limit. */
export const NARROW_BITS = 7;
export const WIDE_BITS = 11;
export type TableWidth = typeof NARROW_BITS | typeof WIDE_BITS;

/** What each direct symbol stands for. */
const DIRECT_VALUES = Float64Array.from({ length: 1 << WIDE_BITS }, (_, s) => unzigzag(s));

/** Up to 2^53 in four symbols a power of two. */
function symbolCount(width: TableWidth): number {
  return (1 << width) + (53 - width) * 4;
}

function zigzag(value: number): number {
  return value < 0 ? -2 * value - 1 : 2 * value;
}

function unzigzag(value: number): number {
  return value % 2 === 0 ? value / 2 : -(value + 1) / 2;
}

function symbolOf(value: number, width: TableWidth): number {
  if (value < 1 << width) return value;
  const power = floorLog2(value);
  return (1 << width) + (power - width) * 4 + (Math.floor(value / 2 ** (power - 2)) & 3);
}

/**
 * The power of two at or below. `Math.log2` may round up just under a power, so it is corrected.
 */
function floorLog2(value: number): number {
  if (value < 0x80000000) return 31 - Math.clz32(value);
  const power = Math.floor(Math.log2(value));
  return 2 ** power > value ? power - 1 : power;
}

/**
 * Shares of each symbol, summing up to SHARES, at least 1 for one that occurs. What rounding leaves
 * over the largest gives or takes.
 */
function normalizeFrequencies(counts: Float64Array, n: number): Uint16Array {
  const shares = new Uint16Array(counts.length);
  let left = TOTAL_FREQUENCY;
  for (let s = 0; s < counts.length; s++) {
    if (counts[s] === 0) continue;
    shares[s] = Math.max(1, Math.round((counts[s]! * TOTAL_FREQUENCY) / n));
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

function cumulativeFrequencies(frequencies: Uint16Array): Uint16Array {
  const starts = new Uint16Array(frequencies.length);
  for (let s = 1; s < frequencies.length; s++) starts[s] = starts[s - 1]! + frequencies[s - 1]!;
  return starts;
}

/** A symbol in the table takes about so many bits. */
const BITS_PER_TABLE_SYMBOL = 10;

/**
 * Bits that a list of `size` numbers like the first `n` of `values` would take, table included: for
 * choosing between two ways.
 */
export function estimateBits(values: Float64Array, n: number, size: number, width: TableWidth): number {
  const counts = new Float64Array(symbolCount(width));
  const direct = 1 << width;
  let bits = 0;
  let highest = 0;
  for (let i = 0; i < n; i++) {
    const value = zigzag(values[i]!);
    let symbol = value;
    if (value >= direct) {
      symbol = symbolOf(value, width);
      bits += floorLog2(value) - 2;
    }
    counts[symbol] = counts[symbol]! + 1;
    if (symbol > highest) highest = symbol;
  }
  let table = 0;
  for (let s = 0; s <= highest; s++) {
    const count = counts[s]!;
    if (count === 0) continue;
    bits -= count * Math.log2(count / n);
    table += BITS_PER_TABLE_SYMBOL;
  }
  return (bits * size) / n + table;
}

/** Writes the first `n` values, whole numbers of at most 2^51 in size. */
export function encodeIntegers(sink: ByteSink, values: Float64Array, n: number, width: TableWidth): void {
  if (n === 0) return;
  const symbols = new Uint16Array(n);
  const counts = new Float64Array(symbolCount(width));
  const direct = 1 << width;
  const rest: BitSink = { bytes: [], buffer: 0, bits: 0 };
  for (let i = 0; i < n; i++) {
    const value = zigzag(values[i]!);
    const symbol = symbolOf(value, width);
    symbols[i] = symbol;
    counts[symbol] = counts[symbol]! + 1;
    if (value >= direct) writeExtraBits(rest, value);
  }
  const shares = normalizeFrequencies(counts, n);
  writeByte(sink, width);
  writeFrequencies(sink, shares);
  writeStates(sink, symbols, shares);
  flushBits(rest);
  writeBytes(sink, Uint8Array.from(rest.bytes));
}

function writeFrequencies(sink: ByteSink, frequencies: Uint16Array): void {
  let used = frequencies.length;
  while (frequencies[used - 1] === 0) used -= 1;
  writeVarint(sink, used);
  for (let s = 0; s < used; s++) {
    writeVarint(sink, frequencies[s]!);
    if (frequencies[s] !== 0) continue;
    let run = 1;
    while (frequencies[s + run] === 0) run += 1;
    writeVarint(sink, run);
    s += run - 1;
  }
}

function readFrequencies(source: ByteSource, symbolCount: number): Uint16Array {
  const shares = new Uint16Array(symbolCount);
  const used = readVarint(source);
  let sum = 0;
  for (let s = 0; s < used; s++) {
    const share = readVarint(source);
    if (share === 0) s += readVarint(source) - 1;
    else {
      if (s >= symbolCount) break;
      shares[s] = share;
      sum += share;
    }
  }
  if (sum !== TOTAL_FREQUENCY)
    throw new RangeError(`Cannot read coded numbers: shares must sum up to ${TOTAL_FREQUENCY}: ${sum}`);
  return shares;
}

/** The last symbol is coded first, so that reading goes forwards. */
function writeStates(sink: ByteSink, symbols: Uint16Array, frequencies: Uint16Array): void {
  const starts = cumulativeFrequencies(frequencies);
  const words = new Uint16Array(symbols.length + 2);
  let at = words.length;
  let state = MIN_STATE;
  for (let i = symbols.length - 1; i >= 0; i--) {
    const s = symbols[i]!;
    const share = frequencies[s]!;
    // A share of everything leaves the state as it is (and the limit below would overflow).
    if (share === TOTAL_FREQUENCY) continue;
    if (state >= share << (31 - FREQUENCY_BITS)) {
      words[--at] = state & 0xffff;
      state >>>= 16;
    }
    state = (((state / share) | 0) << FREQUENCY_BITS) + (state % share) + starts[s]!;
  }
  const size = words.length - at;
  writeVarint(sink, size);
  writeVarint(sink, state);
  reserve(sink, size * 2);
  for (let i = at; i < words.length; i++) sink.offset = sink.bytes.writeUInt16LE(words[i]!, sink.offset);
}

/** Reads `n` values into `to`. */
export function decodeIntegers(source: ByteSource, to: Float64Array, n: number): void {
  if (n === 0) return;
  const width = readByte(source);
  if (width !== NARROW_BITS && width !== WIDE_BITS)
    throw new RangeError(`Cannot read coded numbers: there is no width ${width}`);
  const direct = 1 << width;
  const shares = readFrequencies(source, symbolCount(width));
  const size = readVarint(source);
  let state = readVarint(source);
  const words = readBytes(source, size * 2);
  const starts = cumulativeFrequencies(shares);
  const symbolAt = new Uint16Array(TOTAL_FREQUENCY);
  for (let s = 0; s < shares.length; s++) symbolAt.fill(s, starts[s], starts[s]! + shares[s]!);
  let at = 0;
  const large: number[] = [];
  for (let i = 0; i < n; i++) {
    const slot = state & (TOTAL_FREQUENCY - 1);
    const s = symbolAt[slot]!;
    state = Math.imul(shares[s]!, state >>> FREQUENCY_BITS) + slot - starts[s]!;
    if (state < MIN_STATE) {
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
  readExtraBits(source, to, large, width);
}

interface BitSink {
  bytes: number[];
  buffer: number;
  bits: number;
}

function writeBits(sink: BitSink, value: number, bits: number): void {
  sink.buffer |= value << sink.bits;
  sink.bits += bits;
  while (sink.bits >= 8) {
    sink.bytes.push(sink.buffer & 255);
    sink.buffer >>>= 8;
    sink.bits -= 8;
  }
}

/** At most 16 bits at a time, so that what is held never passes 31. */
function writeExtraBits(sink: BitSink, value: number): void {
  let bits = floorLog2(value) - 2;
  let rest = value % 2 ** bits;
  for (; bits > 16; bits -= 16) {
    writeBits(sink, rest % 65536, 16);
    rest = Math.floor(rest / 65536);
  }
  writeBits(sink, rest, bits);
}

function flushBits(sink: BitSink): void {
  if (sink.bits > 0) sink.bytes.push(sink.buffer & 255);
  sink.buffer = 0;
  sink.bits = 0;
}

/** Where a large number's symbol stands comes the number itself. */
function readExtraBits(
  source: ByteSource,
  to: Float64Array,
  large: readonly number[],
  width: TableWidth,
): void {
  const direct = 1 << width;
  const { bytes } = source;
  let hold = 0;
  let held = 0;
  const take = (bits: number): number => {
    while (held < bits) {
      if (source.offset >= bytes.length)
        throw new RangeError('Cannot read coded numbers: they end too early');
      hold |= bytes[source.offset++]! << held;
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
    to[i] = unzigzag(value + take(bits) * weight);
  }
}
