import { describe, expect, test } from 'vitest';
import type { CycleEvent } from '../../../shared/api/events.ts';
import type { Entry, EntryOf } from '../../../shared/entries/entry.ts';
import { readingGroups } from '../../../src/logbook/readings/reading-groups.ts';

const reading = (id: string, atMs: number, body: EntryOf<'reading'>['body']): EntryOf<'reading'> => ({
  id,
  well: 'orchard',
  kind: 'reading',
  atMs,
  createdMs: atMs,
  by: 'Ines',
  body,
});
const runs = (n: number, amps: number): CycleEvent[] =>
  Array.from({ length: n }, () => ({
    event: 'cycle',
    well: 'orchard',
    pump: 'p1',
    started: '2026-05-01T00:00:00Z',
    stopped: '2026-05-01T00:01:40Z',
    ranS: 100,
    amps,
    flags: [],
  }));

describe('readingGroups', () => {
  test('holds what came after against the last that was pinned, over years', () => {
    const [group] = readingGroups(
      [
        reading('a', 1, { what: 'amps', value: '7.5 A' }),
        reading('b', 2, { what: 'amps', value: '7.9 A', pinned: true, with: 'clamp meter' }),
        reading('c', 3, { what: 'amps', value: '8.3 A' }),
      ],
      runs(12, 8.1),
      ['p1'],
    );
    expect(group).toMatchObject({
      kind: 'amps',
      dimension: 'current',
      pump: 'p1',
      pinnedId: 'b',
      recent: { si: 8.1, count: 12 },
    });
    expect(group?.rows.map(({ id, difference }) => [id, difference?.toFixed(2)])).toEqual([
      ['a', undefined],
      ['b', undefined],
      ['c', '0.40'],
    ]);
  });

  test.each<[string, Entry[], number, string]>([
    [
      'each thing by itself',
      [reading('a', 1, { what: 'amps', value: '7 A' }), reading('b', 1, { what: 'flow', value: '6 gpm' })],
      0,
      'amps p1 | flow',
    ],
    [
      'each place by itself, however it is written',
      [
        reading('a', 1, { what: 'winding', value: '3 ohm', where: 'Red' }),
        reading('b', 2, { what: 'winding', value: '3 ohm', where: 'red' }),
        reading('c', 2, { what: 'winding', value: '9 ohm', where: 'yellow' }),
      ],
      0,
      'winding @Red 2 | winding @yellow',
    ],
    [
      'no other kind of entry',
      [{ id: 'a', well: 'orchard', kind: 'note', atMs: 1, createdMs: 1, body: { text: 'x' } }],
      0,
      '',
    ],
    ['none that cannot be read', [reading('a', 1, { what: 'amps', value: 'eight' })], 0, ''],
    ['four runs are no present', [reading('a', 1, { what: 'amps', value: '7 A' })], 4, 'amps p1'],
    ['five are', [reading('a', 1, { what: 'amps', value: '7 A' })], 5, 'amps p1 now'],
    [
      'another conductor than the clamp’s has no present',
      [reading('a', 1, { what: 'amps', value: '7 A', where: 'line 2' })],
      9,
      'amps p1 @line 2',
    ],
  ])('%s', (_, entries, n, said) => {
    const words = readingGroups(entries, runs(n, 7), ['p1']).map(({ kind, pump, location, rows, recent }) =>
      [kind, pump, location && `@${location}`, rows.length > 1 && rows.length, recent && 'now']
        .filter(Boolean)
        .join(' '),
    );
    expect(words.join(' | ')).toBe(said);
  });

  test('of two pumps the one that is named', () => {
    const [group] = readingGroups([reading('a', 1, { what: 'amps', value: '7 A' })], runs(9, 7), [
      'p1',
      'p2',
    ]);
    expect(group?.pump).toBeUndefined();
    expect(group?.recent).toBeUndefined();
  });
});
