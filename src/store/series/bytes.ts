/**
 * Writing and reading bytes for the journal and the blocks: unsigned and signed whole numbers in
 * seven-bit groups, doubles, short texts. Whole numbers go up to 2^53, so the groups are cut by
 * arithmetic and not by 32-bit shifts.
 */
export interface ByteSink {
  bytes: Buffer;
  offset: number;
}

export interface ByteSource {
  bytes: Buffer;
  offset: number;
}

export function newByteSink(size: number): ByteSink {
  return { bytes: Buffer.allocUnsafe(size), offset: 0 };
}

/** Makes room for `more` bytes; growing by doubling keeps the copying linear. */
export function reserve(sink: ByteSink, more: number): void {
  if (sink.offset + more <= sink.bytes.length) return;
  const grown = Buffer.allocUnsafe(Math.max(sink.bytes.length * 2, sink.offset + more));
  sink.bytes.copy(grown, 0, 0, sink.offset);
  sink.bytes = grown;
}

/** What was written so far; it shares memory with the sink. */
export function writtenBytes(sink: ByteSink): Buffer {
  return sink.bytes.subarray(0, sink.offset);
}

export function writeByte(sink: ByteSink, value: number): void {
  reserve(sink, 1);
  sink.bytes[sink.offset++] = value;
}

/** A whole number, 0 to 2^53 - 1. */
export function writeVarint(sink: ByteSink, value: number): void {
  reserve(sink, 8);
  const { bytes } = sink;
  let rest = value;
  while (rest > 0x7fffffff) {
    bytes[sink.offset++] = (rest % 128) | 128;
    rest = Math.floor(rest / 128);
  }
  while (rest > 127) {
    bytes[sink.offset++] = (rest & 127) | 128;
    rest >>>= 7;
  }
  bytes[sink.offset++] = rest;
}

/**
 * A whole number with a sign, of at most 2^52: 0, -1, 1, -2 … become 0, 1, 2, 3 … so that small
 * ones stay short.
 */
export function writeSignedVarint(sink: ByteSink, value: number): void {
  writeVarint(sink, value < 0 ? -value * 2 - 1 : value * 2);
}

export function writeDouble(sink: ByteSink, value: number): void {
  reserve(sink, 8);
  sink.offset = sink.bytes.writeDoubleLE(value, sink.offset);
}

export function writeUint32(sink: ByteSink, value: number): void {
  reserve(sink, 4);
  sink.offset = sink.bytes.writeUInt32LE(value, sink.offset);
}

export function writeText(sink: ByteSink, text: string): void {
  const size = Buffer.byteLength(text);
  writeVarint(sink, size);
  reserve(sink, size);
  sink.offset += sink.bytes.write(text, sink.offset);
}

export function writeBytes(sink: ByteSink, bytes: Uint8Array): void {
  reserve(sink, bytes.length);
  sink.bytes.set(bytes, sink.offset);
  sink.offset += bytes.length;
}

/**
 * @throws RangeError where the bytes end before the thing that is read: the caller says whose bytes
 * they were.
 */
export function readByte(source: ByteSource): number {
  const value = source.bytes[source.offset++];
  if (value === undefined) throw new RangeError('Cannot read bytes: they end too early');
  return value;
}

export function readVarint(source: ByteSource): number {
  let value = 0;
  let weight = 1;
  for (;;) {
    const byte = readByte(source);
    value += (byte & 127) * weight;
    if (byte < 128) return value;
    weight *= 128;
  }
}

export function readSignedVarint(source: ByteSource): number {
  const value = readVarint(source);
  return value % 2 === 1 ? -(value + 1) / 2 : value / 2;
}

export function readDouble(source: ByteSource): number {
  const value = source.bytes.readDoubleLE(source.offset);
  source.offset += 8;
  return value;
}

export function readUint32(source: ByteSource): number {
  const value = source.bytes.readUInt32LE(source.offset);
  source.offset += 4;
  return value;
}

export function readBytes(source: ByteSource, size: number): Buffer {
  if (source.offset + size > source.bytes.length)
    throw new RangeError('Cannot read bytes: they end too early');
  source.offset += size;
  return source.bytes.subarray(source.offset - size, source.offset);
}

export function readText(source: ByteSource): string {
  return readBytes(source, readVarint(source)).toString('utf8');
}
