import { expect, test } from 'vitest';
import { encodePresence, readPresence } from '../../../src/core/decode/presence.ts';
import { PRESENCES } from '../../../src/core/decode/wire-enums.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test.each(PRESENCES)('readPresence: %s as JSON text and bare', (word) => {
  expect(readPresence(encodePresence(word))).toBe(word);
  expect(readPresence(bytes(word))).toBe(word);
  expect(readPresence(bytes(` "${word}"\n`))).toBe(word);
});

test.each([
  ['', 'empty'],
  ['away', 'bad-presence'],
  ['"here', 'bad-presence'],
  ['Here', 'bad-presence'],
  ['{"here":1}', 'bad-presence'],
  [`here${' '.repeat(100)}`, 'bad-presence'],
])('readPresence: refuses %s', (text, refused) => {
  expect(readPresence(bytes(text))).toMatchObject({ refused });
});

test('readPresence: refuses what is no UTF-8', () => {
  expect(readPresence(Uint8Array.of(0xff, 0xfe))).toMatchObject({ refused: 'bad-presence' });
});
