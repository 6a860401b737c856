import { describe, expect, test } from 'vitest';
import { isComplete } from '../../../src/logbook/documents/document-complete.ts';
import { detectMediaType } from '../../../src/logbook/documents/media-type.ts';

const latin = (text: string): number[] => [...Buffer.from(text, 'latin1')];
const word = (n: number): number[] => [n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];
const chunk = (name: string, data: number[]): number[] => [
  ...word(data.length),
  ...latin(name),
  ...data,
  0,
  0,
  0,
  0,
];

const PNG = [
  0x89,
  ...latin('PNG\r\n\u001a\n'),
  ...chunk('IHDR', [1, 2, 3]),
  ...chunk('IDAT', latin('IEND')),
  ...chunk('IEND', []),
];
/**
 * A photo with a small picture in its first segment, which has an end of its own, and a scan with a
 * stuffed byte and a restart.
 */
const JPEG = [
  [0xff, 0xd8],
  [0xff, 0xe1, 0, 8, 0xff, 0xd8, 1, 2, 0xff, 0xd9],
  [0xff, 0xdb, 0, 4, 1, 1],
  [0xff, 0xda, 0, 4, 1, 1, 5, 0xff, 0, 6, 0xff, 0xd0, 7],
  [0xff, 0xda, 0, 4, 1, 1, 8, 9],
  [0xff, 0xd9],
].flat();
const PDF = latin(`%PDF-1.7\n${'x'.repeat(200)}\n%%EOF\n`);
const WEBP = [...latin('RIFF'), 8, 0, 0, 0, ...latin('WEBP'), 1, 2, 3, 4];
const HEIC = [...word(16), ...latin('ftypheic'), 0, 0, 0, 0, ...word(12), ...latin('mdat'), 1, 2, 3, 4];

describe('a paper that', () => {
  test.each([
    ['PNG', PNG],
    ['JPEG', JPEG],
    ['PDF', PDF],
    ['WebP', WEBP],
    ['HEIC', HEIC],
  ])('is a %s is whole to its end, and no beginning of it is', (_, list) => {
    const bytes = Uint8Array.from(list);
    const type = detectMediaType(bytes)!;
    expect(isComplete(bytes, type)).toBe(true);
    for (let n = 13; n < bytes.length - 1; n++) {
      // A HEIC that ends between two boxes is a whole file of fewer boxes, and a PDF is whole with
      // its mark.
      const mayEnd =
        (type === 'image/heic' && n === 16) || (type === 'application/pdf' && n >= bytes.length - 1);
      expect(isComplete(bytes.subarray(0, n), type), `${n} of ${bytes.length}`).toBe(mayEnd);
    }
  });

  test('has something after its end is let be', () => {
    for (const list of [PNG, JPEG, WEBP]) {
      const bytes = Uint8Array.from([...list, 1, 2, 3]);
      expect(isComplete(bytes, detectMediaType(bytes)!)).toBe(true);
    }
  });

  test('is text may end anywhere', () =>
    expect(isComplete(Uint8Array.from(latin('Sta')), 'text/plain')).toBe(true));
});
