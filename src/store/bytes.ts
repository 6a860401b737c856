/**
 * Writing and reading bytes for the journal and the blocks: unsigned and signed whole numbers in seven-bit groups, doubles,
 * short texts. Whole numbers go up to 2^53, so the groups are cut by arithmetic and not by 32-bit shifts.
 */
export interface Sink {
  bytes: Buffer;
  at: number;
}

export interface Source {
  bytes: Buffer;
  at: number;
}

export function newSink(size: number): Sink {
  return { bytes: Buffer.allocUnsafe(size), at: 0 };
}

/** Makes room for `more` bytes; growing by doubling keeps the copying linear. */
export function reserve(sink: Sink, more: number): void {
  if (sink.at + more <= sink.bytes.length) return;
  const grown = Buffer.allocUnsafe(Math.max(sink.bytes.length * 2, sink.at + more));
  sink.bytes.copy(grown, 0, 0, sink.at);
  sink.bytes = grown;
}

/** What was written so far; it shares memory with the sink. */
export function written(sink: Sink): Buffer {
  return sink.bytes.subarray(0, sink.at);
}

export function putByte(sink: Sink, value: number): void {
  reserve(sink, 1);
  sink.bytes[sink.at++] = value;
}

/** A whole number, 0 to 2^53 - 1. */
export function putCount(sink: Sink, value: number): void {
  reserve(sink, 8);
  const { bytes } = sink;
  let rest = value;
  while (rest > 0x7fffffff) {
    bytes[sink.at++] = (rest % 128) | 128;
    rest = Math.floor(rest / 128);
  }
  while (rest > 127) {
    bytes[sink.at++] = (rest & 127) | 128;
    rest >>>= 7;
  }
  bytes[sink.at++] = rest;
}

/** A whole number with a sign, of at most 2^52: 0, -1, 1, -2 … become 0, 1, 2, 3 … so that small ones stay short. */
export function putSigned(sink: Sink, value: number): void {
  putCount(sink, value < 0 ? -value * 2 - 1 : value * 2);
}

export function putDouble(sink: Sink, value: number): void {
  reserve(sink, 8);
  sink.at = sink.bytes.writeDoubleLE(value, sink.at);
}

export function putWord(sink: Sink, value: number): void {
  reserve(sink, 4);
  sink.at = sink.bytes.writeUInt32LE(value, sink.at);
}

export function putText(sink: Sink, text: string): void {
  const size = Buffer.byteLength(text);
  putCount(sink, size);
  reserve(sink, size);
  sink.at += sink.bytes.write(text, sink.at);
}

export function putBytes(sink: Sink, bytes: Uint8Array): void {
  reserve(sink, bytes.length);
  sink.bytes.set(bytes, sink.at);
  sink.at += bytes.length;
}

/** @throws RangeError where the bytes end before the thing that is read: the caller says whose bytes they were. */
export function takeByte(source: Source): number {
  const value = source.bytes[source.at++];
  if (value === undefined) throw new RangeError('Cannot read bytes: they end too early');
  return value;
}

export function takeCount(source: Source): number {
  let value = 0;
  let weight = 1;
  for (;;) {
    const byte = takeByte(source);
    value += (byte & 127) * weight;
    if (byte < 128) return value;
    weight *= 128;
  }
}

export function takeSigned(source: Source): number {
  const value = takeCount(source);
  return value % 2 === 1 ? -(value + 1) / 2 : value / 2;
}

export function takeDouble(source: Source): number {
  const value = source.bytes.readDoubleLE(source.at);
  source.at += 8;
  return value;
}

export function takeWord(source: Source): number {
  const value = source.bytes.readUInt32LE(source.at);
  source.at += 4;
  return value;
}

export function takeBytes(source: Source, size: number): Buffer {
  if (source.at + size > source.bytes.length) throw new RangeError('Cannot read bytes: they end too early');
  source.at += size;
  return source.bytes.subarray(source.at - size, source.at);
}

export function takeText(source: Source): string {
  return takeBytes(source, takeCount(source)).toString('utf8');
}
