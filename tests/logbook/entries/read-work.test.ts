import { describe, expect, test } from 'vitest';
import { readEntry } from '../../../src/logbook/entries/read-entry.ts';
import { type AffectedPart } from '../../../shared/entries/entry-fields.ts';
import { needsNewBaseline } from '../../../src/logbook/entries/work.ts';

const read = (body: Record<string, unknown>) =>
  readEntry({ kind: 'work', well: 'orchard', ...body }, { id: 'e1', createdMs: Date.UTC(2026, 4, 2) });

describe('work', () => {
  test.each<[Record<string, unknown>, string]>([
    [
      { done: 'New switch', touched: ['switch'], visit: 'a1', parts: ['switch 40/60', 'nipple 1/4 in'] },
      'taken',
    ],
    [{ touched: ['switch'] }, 'done must be given'],
    [{ done: 'New switch', touched: ['roof'] }, 'touched must be a list of pump, motor'],
    [{ done: 'New switch', touched: 'switch' }, 'touched must be a list'],
    [{ done: 'New switch', parts: [''] }, 'parts must each be text of 1 to 120 characters in one line: ""'],
  ])('%j', (body, says) => {
    const found = read(body);
    expect('problem' in found ? found.problem : 'taken').toContain(says);
  });

  test.each<[AffectedPart[], boolean]>([
    [[], false],
    [['pipe', 'sensors', 'wiring', 'well', 'other'], false],
    [['pipe', 'switch'], true],
    [['pump'], true],
    [['motor'], true],
    [['tank'], true],
  ])('that touched %j asks for a new baseline: %s', (touched, asks) => {
    expect(needsNewBaseline(touched)).toBe(asks);
  });
});
