import { describe, expect, test } from 'vitest';
import { readEntry } from '../../../src/logbook/entries/read-entry.ts';

const MADE = Date.UTC(2026, 4, 2, 12);
const read = (json: unknown) => readEntry(json, { id: 'e1', createdMs: MADE, by: 'Ines' });
const HASH = 'a'.repeat(64);

describe('readEntry', () => {
  test.each<[string, Record<string, unknown>]>([
    ['a note', { kind: 'note', text: 'The key hangs in the barn.' }],
    ['a reading', { kind: 'reading', what: 'static-level', value: '41 ft', with: 'steel tape' }],
    ['a check', { kind: 'check', check: 'relief-valve', outcome: 'right', papers: [HASH] }],
    ['work', { kind: 'work', done: 'New switch', parts: ['switch 40/60'], doneBy: 'Alder Pump Service' }],
    ['a paper', { kind: 'paper', hash: HASH, name: 'well log.pdf', type: 'application/pdf', bytes: 900 }],
    [
      'a water test',
      {
        kind: 'water-test',
        laboratory: 'County laboratory',
        results: [{ analyte: 'E. coli', value: 'absent' }],
      },
    ],
    ['a plan with a day', { kind: 'check-plan', check: 'precharge', next: '2027-04-01' }],
    ['one struck out', { kind: 'struck', replaces: 'e0', text: 'Another well.' }],
  ])('takes %s', (_, written) => {
    const { kind, replaces, ...body } = written;
    expect(read({ well: 'orchard', at: '2026-05-01T08:00:00Z', ...written })).toEqual({
      entry: {
        id: 'e1',
        well: 'orchard',
        kind,
        atMs: Date.UTC(2026, 4, 1, 8),
        createdMs: MADE,
        by: 'Ines',
        ...(replaces !== undefined && { replaces }),
        body,
      },
    });
  });

  test('what has no time was so when it was written down', () => {
    expect(read({ kind: 'note', well: 'orchard', text: 'x' })).toMatchObject({ entry: { atMs: MADE } });
  });

  test.each<[string, unknown, string]>([
    ['nothing', undefined, 'must be an object'],
    ['no kind', { well: 'orchard' }, 'kind must be given'],
    ['an unknown kind', { kind: 'rumour', well: 'orchard' }, 'kind must be one of'],
    [
      'an unknown key',
      { kind: 'note', well: 'orchard', text: 'x', colour: 'red' },
      'colour is not known here',
    ],
    [
      'the future',
      { kind: 'note', well: 'orchard', text: 'x', at: '2026-06-01T00:00:00Z' },
      'at must be in the past',
    ],
    [
      'another age',
      { kind: 'note', well: 'orchard', text: 'x', at: '1066-10-14T00:00:00Z' },
      'not before 1850',
    ],
    [
      'a path for a hash',
      { kind: 'check', well: 'orchard', check: 'x', outcome: 'right', papers: ['../../etc'] },
      'papers must be a list',
    ],
    [
      'a water test without a result',
      { kind: 'water-test', well: 'orchard', results: [] },
      '1 to 200 results',
    ],
    [
      'a next time that no calendar has',
      { kind: 'check-plan', well: 'orchard', check: 'precharge', next: '9999-12-31' },
      'next must be from 2000-01-01 to 2199-12-31',
    ],
    [
      'a next time of another age',
      { kind: 'check-plan', well: 'orchard', check: 'precharge', next: '0001-01-01' },
      'next must be from 2000-01-01',
    ],
    [
      'what is too deep to be told',
      {
        kind: 'note',
        well: 'orchard',
        text: 'x',
        event: JSON.parse(`${'['.repeat(20_000)}${']'.repeat(20_000)}`) as unknown,
      },
      'event must be one of',
    ],
    ['a strike at nothing', { kind: 'struck', well: 'orchard' }, 'replaces must be given'],
  ])('refuses %s', (_, json, says) => {
    const found = read(json);
    expect('problem' in found ? found.problem : 'taken').toContain(says);
  });
});
