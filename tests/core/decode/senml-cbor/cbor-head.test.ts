import { describe, expect, test } from 'vitest';
import {
  SIMPLE,
  TEXT,
  isShortFloat,
  itemEnd,
  newHead,
  numberOf,
  readHead,
  type CborHead,
} from '../../../../src/core/decode/senml-cbor/cbor-head.ts';

/** The head of these bytes and the number it is, or nothing where it is not read. */
function read(hex: string): (CborHead & { number: number }) | undefined {
  const bytes = Uint8Array.from(Buffer.from(hex, 'hex'));
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const head = newHead();
  return readHead(head, view, 0) ? { ...head, number: numberOf(head, view) } : undefined;
}

describe('numberOf', () => {
  // RFC 8949, appendix A, from memory.
  test.each([
    ['00', 0],
    ['17', 23],
    ['1818', 24],
    ['1903e8', 1000],
    ['1a000f4240', 1_000_000],
    ['1b000000e8d4a51000', 1_000_000_000_000],
    ['20', -1],
    ['3863', -100],
    ['f90000', 0],
    ['f93c00', 1],
    ['f97bff', 65_504],
    ['f90001', 2 ** -24],
    ['f90400', 2 ** -14],
    ['f9c400', -4],
    ['f97c00', Infinity],
    ['f9fc00', -Infinity],
    ['fa47c35000', 100_000],
    ['fb3ff199999999999a', 1.1],
    ['fbc010666666666666', -4.1],
  ])('%s is %d', (hex, number) => {
    expect(read(hex)?.number).toBe(number);
  });

  test.each(['f97e00', 'f4', 'f6', 'f7', '6161', '80', 'a0'])('%s is none', (hex) => {
    expect(read(hex)?.number).toBeNaN();
  });
});

test.each([
  ['nothing', ''],
  ['an integer cut short', '19 03'.replace(' ', '')],
  ['an integer that a double cannot hold', '1bffffffffffffffff'],
  ['a tag', 'c100'],
  ['a list of a length that is not said', '9f'],
  ['a break', 'ff'],
  ['a reserved length', '1c'],
])('readHead: %s is not read', (_, hex) => {
  expect(read(hex)).toBeUndefined();
});

test('itemEnd: after the letters of a text, after the head of all else', () => {
  expect(itemEnd({ major: TEXT, info: 2, argument: 2, end: 1 })).toBe(3);
  expect(itemEnd({ major: SIMPLE, info: 20, argument: 2, end: 1 })).toBe(1);
});

test('isShortFloat: half and single, not double', () => {
  expect(['f93c00', 'fa47c35000', 'fb3ff199999999999a', '00'].map((hex) => isShortFloat(read(hex)!))).toEqual(
    [true, true, false, false],
  );
});
