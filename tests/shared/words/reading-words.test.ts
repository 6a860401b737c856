import { expect, test } from 'vitest';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import {
  BROUGHT,
  QUALIFIED,
  QUALIFIED_ONLY,
  READING_WORDS,
  readingWords,
} from '../../../shared/words/reading-words.ts';
import { READING_WHATS, READINGS } from '../../../src/book/read-reading.ts';

test('every reading that can be kept has words, and no other', () => {
  expect(Object.keys(READING_WORDS).toSorted()).toEqual(READING_WHATS.toSorted());
  expect([...new Set([...BROUGHT, ...QUALIFIED])].toSorted()).toEqual(READING_WHATS.toSorted());
});

test.each(READING_WHATS)('%s can be written as the page shows it, and is said again as it was', (what) => {
  const words = readingWords(what)!;
  for (const [at, text] of words.like.entries()) {
    const read = parseQuantity(text, READINGS[what]);
    expect(
      'si' in read && words.say(read.si, at === 0 ? 'us' : 'metric').replace('1 min 35 s', '95 s'),
    ).toMatch(/\d/);
    expect(read).not.toHaveProperty('problem');
  }
});

test.each(['static-level', 'pumping-level'] as const)('%s: nobody lifts a well cap for it', (what) => {
  expect(READING_WORDS[what].how).toMatch(/a well contractor sounded it.*Leave the well cap closed/u);
});

test('what is read inside a box is never guided, and nobody is asked to open one', () => {
  for (const what of QUALIFIED) expect(READING_WORDS[what].how).toBeUndefined();
  expect(QUALIFIED_ONLY).toContain('Nobody is asked to open one');
});
