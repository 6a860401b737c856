import { describe, expect, test } from 'vitest';
import type { Entry, EntryOf } from '../../../shared/entries/entry.ts';
import { affectedByWork, visitsOf, workInVisit, type StoredAct } from '../../../src/logbook/visits/visits.ts';

const act = (id: string, atMs: number, kind: string, body: object = {}): StoredAct => ({
  id,
  atMs,
  kind: `visit-${kind}`,
  body,
  by: 'Ines',
});

describe('visitsOf', () => {
  test.each<[string, StoredAct[], string]>([
    ['none', [], ''],
    ['one that is open', [act('a', 1, 'opened')], 'a 1-'],
    ['one that is closed', [act('a', 1, 'opened'), act('b', 2, 'closed')], 'a 1-2'],
    [
      'one opened twice is one',
      [act('a', 1, 'opened'), act('x', 2, 'opened'), act('b', 3, 'closed')],
      'a 1-3',
    ],
    ['closing what is not open is passed over', [act('x', 1, 'closed'), act('a', 2, 'opened')], 'a 2-'],
    ['in any order', [act('b', 2, 'closed'), act('a', 1, 'opened')], 'a 1-2'],
    [
      'with a new baseline',
      [act('a', 1, 'opened'), act('b', 2, 'closed', { newBaseline: true })],
      'a 1-2 anew',
    ],
    ['other acts are passed over', [{ ...act('a', 1, 'opened'), kind: 'expected' }], ''],
  ])('%s', (_, acts, said) => {
    const found = visitsOf(acts).map(
      ({ id, openedMs, closedMs, newBaseline }) =>
        `${id} ${openedMs}-${closedMs ?? ''}${newBaseline ? ' anew' : ''}`,
    );
    expect(found.join(', ')).toBe(said);
  });

  test('a neighbour bounds what is before and after', () => {
    const acts = [act('a', 1, 'opened'), act('b', 2, 'closed'), act('c', 5, 'opened')];
    expect(visitsOf(acts)).toEqual([
      {
        id: 'a',
        openedMs: 1,
        openedBy: 'Ines',
        closedMs: 2,
        closedBy: 'Ines',
        newBaseline: false,
        windowEndMs: 5,
      },
      { id: 'c', openedMs: 5, openedBy: 'Ines', newBaseline: false, windowStartMs: 2 },
    ]);
  });
});

describe('workOf', () => {
  const work = (id: string, atMs: number, body: Partial<EntryOf<'work'>['body']> = {}): EntryOf<'work'> => ({
    id,
    well: 'orchard',
    kind: 'work',
    atMs,
    createdMs: atMs,
    body: { done: id, ...body },
  });
  const [visit] = visitsOf([act('a', 10, 'opened'), act('b', 20, 'closed')]);

  test('is what names the visit, and what names none and lies in it', () => {
    const entries: Entry[] = [
      work('before', 5),
      work('within', 15, { touched: ['switch'] }),
      work('of another', 16, { visit: 'x' }),
      work('written later', 900, { visit: 'a', touched: ['pipe', 'switch'] }),
      { ...work('a note', 15), kind: 'note', body: { text: 'a note' } },
    ];
    const mine = workInVisit(visit!, entries);
    expect(mine.map(({ id }) => id)).toEqual(['within', 'written later']);
    expect(affectedByWork(mine)).toEqual({ affectedParts: ['switch', 'pipe'], newBaseline: true });
    expect(affectedByWork([])).toEqual({ affectedParts: [], newBaseline: false });
  });
});
