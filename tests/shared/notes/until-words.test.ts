import { expect, test } from 'vitest';
import { untilWords } from '../../../shared/notes/until-words.ts';

const NOW = Date.parse('2026-07-14T18:15:00Z');

test.each([
  ['2026-07-20T06:00:00Z', 'the end of Sun 19 July'],
  ['2027-01-01T07:00:00Z', 'the end of Thu 31 December'],
  ['2027-01-02T07:00:00Z', 'the end of Fri 1 January 2027'],
  ['2026-07-19T23:00:00Z', 'Sun 19 July, 5:00 pm'],
])('%s', (at, words) => {
  expect(untilWords(Date.parse(at), 'America/Denver', 'us', NOW)).toBe(words);
});
