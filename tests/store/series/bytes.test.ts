/** Bytes come back as they were put, at the ends of what is allowed too. */
import { expect, test } from 'vitest';
import {
  newByteSink,
  writeByte,
  writeBytes,
  writeVarint,
  writeDouble,
  writeSignedVarint,
  writeText,
  writeUint32,
  readByte,
  readBytes,
  readVarint,
  readDouble,
  readSignedVarint,
  readText,
  readUint32,
  writtenBytes,
} from '../../../src/store/series/bytes.ts';

const COUNTS = [0, 1, 127, 128, 2 ** 31 - 1, 2 ** 31, 2 ** 32, 2 ** 53 - 1];

test('everything comes back in its order', () => {
  const sink = newByteSink(1);
  for (const n of COUNTS) writeVarint(sink, n);
  for (const n of COUNTS.slice(0, -1)) writeSignedVarint(sink, -n);
  writeByte(sink, 255);
  writeUint32(sink, 2 ** 32 - 1);
  writeDouble(sink, 1 / 3);
  writeText(sink, 'Brønd 3');
  writeBytes(sink, Uint8Array.of(1, 2));
  const source = { bytes: writtenBytes(sink), offset: 0 };
  for (const n of COUNTS) expect(readVarint(source)).toBe(n);
  for (const n of COUNTS.slice(0, -1)) expect(readSignedVarint(source)).toBe(0 - n);
  expect(readByte(source)).toBe(255);
  expect(readUint32(source)).toBe(2 ** 32 - 1);
  expect(readDouble(source)).toBe(1 / 3);
  expect(readText(source)).toBe('Brønd 3');
  expect([...readBytes(source, 2)]).toEqual([1, 2]);
  expect(source.offset).toBe(source.bytes.length);
});

test.each([
  [0, 1],
  [127, 1],
  [128, 2],
  [2 ** 53 - 1, 8],
])('the count %d takes %d bytes', (n, size) => {
  const sink = newByteSink(1);
  writeVarint(sink, n);
  expect(writtenBytes(sink)).toHaveLength(size);
});

test.each([
  ['a byte', readByte],
  ['a count', readVarint],
  ['a word', readUint32],
  ['a double', readDouble],
  ['a text', readText],
])('%s past the end is refused', (_, take) => {
  expect(() => take({ bytes: Buffer.alloc(0), offset: 0 })).toThrow(RangeError);
});
