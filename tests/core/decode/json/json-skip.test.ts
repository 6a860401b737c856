import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { NOT_FOUND } from '../../../../src/core/decode/json/json-scan.ts';
import { valueEnd } from '../../../../src/core/decode/json/json-skip.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

test('valueEnd: any JSON value ends where its text ends, whatever follows', () => {
  fc.assert(
    fc.property(fc.json(), fc.constantFrom(',', '}', ' ', ''), (json, behind) => {
      expect(valueEnd(bytes(json + behind), 0)).toBe(bytes(json).length);
    }),
    { numRuns: 2000, seed: 8259 },
  );
});

test.each(['', '[', '[1', '{"a":[]', '"abc', String.raw`"abc\"`, '["]', ',', ']'])(
  'valueEnd: %s never ends',
  (text) => {
    expect(valueEnd(bytes(text), 0)).toBe(NOT_FOUND);
  },
);
