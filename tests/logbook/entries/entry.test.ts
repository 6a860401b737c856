import { describe, expect, test } from 'vitest';
import { currentEntries, type Entry } from '../../../shared/entries/entry.ts';

const entry = (id: string, more: Partial<Entry> = {}): Entry =>
  ({
    id,
    well: 'orchard',
    kind: 'note',
    atMs: 1000,
    createdMs: 2000,
    body: { text: id },
    ...more,
  }) as Entry;

describe('currentEntries', () => {
  test.each<[string, Entry[], string]>([
    ['all, by when they were so', [entry('b', { atMs: 3 }), entry('a', { atMs: 2 })], 'a b'],
    ['those of one moment, as they came', [entry('b'), entry('a')], 'b a'],
    ['one put right counts once', [entry('a'), entry('b', { replaces: 'a' })], 'b'],
    ['one struck out counts no more', [entry('a'), entry('x', { kind: 'struck', replaces: 'a' })], ''],
    [
      'two that put the same right are both shown',
      [entry('a'), entry('b', { replaces: 'a' }), entry('c', { replaces: 'a', createdMs: 2001 })],
      'b c',
    ],
  ])('%s', (_, entries, ids) => {
    expect(
      currentEntries(entries)
        .map(({ id }) => id)
        .join(' '),
    ).toBe(ids);
  });
});
