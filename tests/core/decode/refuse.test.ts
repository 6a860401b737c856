import { expect, test } from 'vitest';
import { writtenValue } from '../../../shared/text/en/refusals/written-value.ts';
import { isRefusal, refuse, formatValue } from '../../../src/core/decode/refuse.ts';

test.each([
  ['text', '"text"'],
  ['a"b\n', String.raw`"a\"b\n"`],
  ['x'.repeat(70), `"${'x'.repeat(60)}…"`],
  [7.5, '7.5'],
  [10n, '10'],
  [null, 'null'],
  [undefined, 'undefined'],
  [[1], 'a list'],
  [{}, 'an object'],
  [new Map(), 'an object'],
])('shown: %s', (value, text) => {
  expect(writtenValue(formatValue(value))).toBe(text);
});

test('isRefusal: tells a refusal from a value', () => {
  expect(isRefusal(refuse('empty', 'hello-empty'))).toBe(true);
  expect(isRefusal({ value: 1 })).toBe(false);
});
