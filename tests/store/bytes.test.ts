/** Bytes come back as they were put, at the ends of what is allowed too. */
import { expect, test } from 'vitest';
import {
  newSink,
  putByte,
  putBytes,
  putCount,
  putDouble,
  putSigned,
  putText,
  putWord,
  takeByte,
  takeBytes,
  takeCount,
  takeDouble,
  takeSigned,
  takeText,
  takeWord,
  written,
} from '../../src/store/bytes.ts';

const COUNTS = [0, 1, 127, 128, 2 ** 31 - 1, 2 ** 31, 2 ** 32, 2 ** 53 - 1];

test('everything comes back in its order', () => {
  const sink = newSink(1);
  for (const n of COUNTS) putCount(sink, n);
  for (const n of COUNTS.slice(0, -1)) putSigned(sink, -n);
  putByte(sink, 255);
  putWord(sink, 2 ** 32 - 1);
  putDouble(sink, 1 / 3);
  putText(sink, 'Brønd 3');
  putBytes(sink, Uint8Array.of(1, 2));
  const source = { bytes: written(sink), at: 0 };
  for (const n of COUNTS) expect(takeCount(source)).toBe(n);
  for (const n of COUNTS.slice(0, -1)) expect(takeSigned(source)).toBe(0 - n);
  expect(takeByte(source)).toBe(255);
  expect(takeWord(source)).toBe(2 ** 32 - 1);
  expect(takeDouble(source)).toBe(1 / 3);
  expect(takeText(source)).toBe('Brønd 3');
  expect([...takeBytes(source, 2)]).toEqual([1, 2]);
  expect(source.at).toBe(source.bytes.length);
});

test.each([
  [0, 1],
  [127, 1],
  [128, 2],
  [2 ** 53 - 1, 8],
])('the count %d takes %d bytes', (n, size) => {
  const sink = newSink(1);
  putCount(sink, n);
  expect(written(sink)).toHaveLength(size);
});

test.each([
  ['a byte', takeByte],
  ['a count', takeCount],
  ['a word', takeWord],
  ['a double', takeDouble],
  ['a text', takeText],
])('%s past the end is refused', (_, take) => {
  expect(() => take({ bytes: Buffer.alloc(0), at: 0 })).toThrow(RangeError);
});
