import { expect, test } from 'vitest';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import {
  UNQUALIFIED_READINGS,
  QUALIFIED_READINGS,
  QUALIFIED_ONLY_NOTE,
  READING_WORDS,
  findReadingWords,
} from '../../../shared/text/en/checks/reading-words.ts';
import { READING_KINDS, READING_DIMENSIONS } from '../../../shared/entries/entry-fields.ts';

test('every reading that can be kept has words, and no other', () => {
  expect(Object.keys(READING_WORDS).toSorted()).toEqual(READING_KINDS.toSorted());
  expect([...new Set([...UNQUALIFIED_READINGS, ...QUALIFIED_READINGS])].toSorted()).toEqual(
    READING_KINDS.toSorted(),
  );
});

test.each(READING_KINDS)('%s can be written as the page shows it, and is said again as it was', (what) => {
  const words = findReadingWords(what)!;
  for (const [at, text] of words.examples.entries()) {
    const read = parseQuantity(text, READING_DIMENSIONS[what]);
    expect(
      'si' in read && words.format(read.si, at === 0 ? 'us' : 'metric').replace('1 min 35 s', '95 s'),
    ).toMatch(/\d/);
    expect(read).not.toHaveProperty('problem');
  }
});

test.each(['static-level', 'pumping-level'] as const)('%s: nobody lifts a well cap for it', (what) => {
  expect(READING_WORDS[what].instructions).toMatch(
    /measured by a well contractor.*Leave the well cap closed/u,
  );
});

test('what is read inside a box is never guided, and nobody is asked to open one', () => {
  for (const what of QUALIFIED_READINGS) expect(READING_WORDS[what].instructions).toBeUndefined();
  expect(QUALIFIED_ONLY_NOTE).toContain('Do not open a box for this page');
});
