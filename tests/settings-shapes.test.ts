/** Each shape refuses with a rule that a person can follow. */
import { expect, it } from 'vitest';
import type { z } from 'zod';
import {
  file,
  host,
  integer,
  isUrlOf,
  list,
  MAX_TEXT_CHARACTERS,
  number,
  oneOf,
  PORTS,
  section,
  text,
} from '../src/settings-shapes.ts';

function ruleFor(shape: z.ZodType, value: unknown): string | undefined {
  return shape.safeParse(value).error?.issues[0]?.message;
}

it.each([
  [text('must be a name'), 'pump house', undefined],
  [text('must be a name'), ' ', 'must be a name'],
  [text('must be a name'), 'two\nlines', 'must be a name'],
  [text('must be a name'), 'x'.repeat(MAX_TEXT_CHARACTERS + 1), 'must be a name'],
  [number({ min: 0.5, max: 2 }), 0.4, 'must be a number from 0.5 to 2'],
  [integer(PORTS), 80.5, 'must be a whole number from 0 to 65535'],
  [oneOf('us', 'metric'), 'si', 'must be one of us, metric'],
  [list(file, 2), ['a', 'b', 'c'], 'must be a list of at most 2 items'],
  [section({ host }), 'localhost', 'must be an object in braces'],
  [host, 'pump house', 'must be a host name or an address'],
  [host, '::1', undefined],
] as const)('%#', (shape, value, rule) => {
  expect(ruleFor(shape, value)).toBe(rule);
});

it('isUrlOf: of these protocols alone', () => {
  expect(isUrlOf('https://hook.example', ['https:'])).toBe(true);
  expect(isUrlOf('ftp://hook.example', ['https:'])).toBe(false);
  expect(isUrlOf('hook', ['https:'])).toBe(false);
});
