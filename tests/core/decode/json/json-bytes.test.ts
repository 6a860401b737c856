import { describe, expect, test } from 'vitest';
import { jsonDepth, readJson, utf8Text } from '../../../../src/core/decode/json/json-bytes.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test.each([
  ['1', 0],
  ['[]', 1],
  ['[{"a":[1]},[2]]', 3],
  ['["[[[["]', 1],
  [String.raw`["\"[[[["]`, 1],
  ['['.repeat(50), 50],
])('jsonDepth: %s', (text, depth) => {
  expect(jsonDepth(bytes(text))).toBe(depth);
});

describe('readJson', () => {
  test.each([
    ['[1,2]', { value: [1, 2] }],
    [' null ', { value: null }],
    ['{"a":1,"a":2}', { value: { a: 2 } }],
  ])('%s', (text, read) => {
    expect(readJson(bytes(text))).toEqual(read);
  });

  test.each([
    ['[1,]', 'not-json'],
    ['', 'not-json'],
    ['\u{feff}[]', 'not-json'],
    ['[[[[[[[[[]]]]]]]]]', 'too-deep'],
    ['['.repeat(100_000), 'too-deep'],
  ])('refuses %s', (text, refused) => {
    expect(readJson(bytes(text))).toMatchObject({ refused });
  });
});

test('utf8Text: undefined for what is not UTF-8', () => {
  expect(utf8Text(bytes('é€😀'))).toBe('é€😀');
  for (const wrong of [[0xff], [0xc0, 0x80], [0xed, 0xa0, 0x80], [0xe2, 0x82]]) {
    expect(utf8Text(Uint8Array.from(wrong))).toBeUndefined();
  }
});
