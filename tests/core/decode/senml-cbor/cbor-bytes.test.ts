import { describe, expect, test } from 'vitest';
import { readCbor } from '../../../../src/core/decode/senml-cbor/cbor-bytes.ts';

const hex = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text.replaceAll(' ', ''), 'hex'));

describe('readCbor', () => {
  test.each([
    ['an empty array', '80', { value: [] }],
    ['integer labels', '81 a2 00 61 61 02 05', { value: [{ n: 'a', v: 5 }] }],
    ['negative labels', '81 a2 21 61 61 22 05', { value: [{ bn: 'a', bt: 5 }] }],
    ['text labels', '81 a2 61 6e 61 61 61 76 05', { value: [{ n: 'a', v: 5 }] }],
    ['an unknown integer label', '81 a1 18 63 05', { value: [{ 99: 5 }] }],
    [
      'a label that objects have',
      '81 a1 69 5f5f70726f746f5f5f 05',
      { value: [JSON.parse('{"__proto__":5}')] },
    ],
    ['a base time in double', '81 a1 22 fb 41dac2f7a0000000', { value: [{ bt: 1795939968 }] }],
    ['a short t in half', '81 a1 06 f9 3c00', { value: [{ t: 1 }] }],
    ['-3 as a value, then a half', '81 a2 02 22 05 f9 3c00', { value: [{ v: -3, s: 1 }] }],
    ['-3 in a list, then a half', '81 a1 61 78 82 22 f9 3c00', { value: [{ x: [-3, 1] }] }],
    ['a list before a base time', '81 a2 61 78 82 01 02 22 05', { value: [{ x: [1, 2], bt: 5 }] }],
  ])('%s', (_, text, read) => {
    expect(readCbor(hex(text))).toEqual(read);
  });

  test.each([
    ['a base time in half', '81 a1 22 f9 3c00', 'time-too-coarse'],
    ['a base time in single', '81 a1 22 fa 4ed60000', 'time-too-coarse'],
    ['the same in an endless map', '9f bf 00 61 61 22 fa 4ed60000 ff ff', 'time-too-coarse'],
    ['the same behind a list', '81 a2 61 78 82 01 02 22 fa 4ed60000', 'time-too-coarse'],
    ['the same behind a map in a map', '81 a2 61 78 a1 01 02 22 fa 4ed60000', 'time-too-coarse'],
    ['a Unix time in single in t', '81 a1 06 fa 4ed60000', 'time-too-coarse'],
    ['nothing', '', 'not-cbor'],
    ['an array that promises more than there is', '9b ffffffffffffffff', 'not-cbor'],
    ['text that promises more than there is', '7b ffffffffffffffff', 'not-cbor'],
    ['undefined', '81 f7', 'not-cbor'],
    ['a tag of another kind', 'c1 80', 'not-cbor'],
    ['a lone break', 'ff', 'not-cbor'],
    ['nine arrays', '81 81 81 81 81 81 81 81 81 00', 'too-deep'],
    ['endless arrays in each other', '9f'.repeat(60_000), 'too-deep'],
  ])('refuses %s', (_, text, refused) => {
    expect(readCbor(hex(text))).toMatchObject({ refused });
  });

  test('many small arrays beside each other are not deep', () => {
    expect(readCbor(hex(`9f ${'80'.repeat(1000)} ff`))).toMatchObject({ value: { length: 1000 } });
  });
});
