import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  NOT_FOUND,
  numberEnd,
  parseNumberBytes,
  spaceEnd,
  plainStringEnd,
  bytesEqual,
} from '../../../../src/core/decode/json/json-scan.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const read = (text: string): number => parseNumberBytes(bytes(text), 0, text.length);

describe('numberIn', () => {
  test.each([
    '0',
    '-0',
    '7',
    '7.91',
    '-0.05',
    '312400',
    '9007199254740991',
    '0.000000000000001',
    '1795600000.125',
    '0.1',
  ])('%s is the double of JSON.parse', (text) => {
    expect(read(text)).toBe(JSON.parse(text));
  });

  test.each([
    '',
    '-',
    '.5',
    '5.',
    '05',
    '-01',
    '1e3',
    '1E3',
    '--1',
    '1-2',
    '1.2.3',
    '+1',
    '9007199254740992',
    '12345678901234567',
    '0.12345678901234567',
  ])('%s is left to JSON.parse', (text) => {
    expect(read(text)).toBeNaN();
  });

  test('every decimal that it takes is the very double of JSON.parse', () => {
    const decimal = fc.tuple(fc.boolean(), fc.maxSafeNat(), fc.nat(16)).map(([negative, digits, places]) => {
      const text = digits.toString().padStart(places + 1, '0');
      const whole = places === 0 ? text : `${text.slice(0, -places)}.${text.slice(-places)}`;
      return negative ? `-${whole}` : whole;
    });
    fc.assert(
      fc.property(decimal, (text) => {
        const value = read(text);
        return Number.isNaN(value) || Object.is(value, JSON.parse(text));
      }),
      { numRuns: 20_000, seed: 8428 },
    );
  });
});

test('numberEnd and spaceEnd: stop at the first byte that is something else, or at the end', () => {
  expect(numberEnd(bytes('-7.5,'), 0)).toBe(4);
  expect(numberEnd(bytes('75'), 0)).toBe(2);
  expect(spaceEnd(bytes(' \t\r\n{'), 0)).toBe(4);
  expect(spaceEnd(bytes('  '), 0)).toBe(2);
});

test('wordEnd: the closing quote, and NOWHERE for escapes, control characters, other alphabets and no end', () => {
  expect(plainStringEnd(bytes('current"'), 0)).toBe(7);
  for (const text of [String.raw`a\"b"`, 'a\nb"', 'é"', '\u{7f}"', 'abc'])
    expect(plainStringEnd(bytes(text), 0)).toBe(NOT_FOUND);
});

test('wordIs: length and every byte', () => {
  expect(bytesEqual(bytes('xcurrent'), 1, 8, bytes('current'))).toBe(true);
  expect(bytesEqual(bytes('xcurrent'), 1, 7, bytes('current'))).toBe(false);
  expect(bytesEqual(bytes('xcurrenu'), 1, 8, bytes('current'))).toBe(false);
});
