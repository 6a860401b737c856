import { expect, test } from 'vitest';
import { digestOf } from '../../../../src/core/decode/senml/digest.ts';

/** MurmurHash3 x86_32, seed 0. Widely published test values; from memory, no page at hand. */
test.each([
  ['', 0],
  ['hello', 0x248bfa47],
  ['hello, world', 0x149bbb7f],
  ['The quick brown fox jumps over the lazy dog', 0x2e4ff723],
])('digestOf: %s', (text, digest) => {
  expect(digestOf(new TextEncoder().encode(text))).toBe(digest);
});

test('digestOf: one changed byte, anywhere, changes it', () => {
  const bytes = new TextEncoder().encode('[{"bn":"barn-north:","bt":1795600000}]');
  const whole = digestOf(bytes);
  for (let i = 0; i < bytes.length; i++) {
    const changed = bytes.slice();
    changed[i]! ^= 1;
    expect(digestOf(changed)).not.toBe(whole);
  }
});
