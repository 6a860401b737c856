/** Checks that card and logbook call for, and lists for one occasion. */
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../../shared/entries/entry.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import { dueChecks, type DueCheck, type DueInput } from '../../../src/logbook/due/due.ts';

const NOW = Date.parse('2026-06-15T12:00:00Z');

function check(kind: string, card: object, more: Partial<DueInput> = {}): DueCheck {
  const read = readCard({ well: 'a', ...card });
  if ('problem' in read) throw new Error(read.problem);
  const input = { card: read.card, entries: [], acts: [], nodes: [], activeAlarms: [], nowMs: NOW, ...more };
  return dueChecks({ firstSeenMs: Date.parse('2025-01-01'), ...input }).find((one) => one.check === kind)!;
}

const entry = (on: string, kind: Entry['kind'], body: object): Entry =>
  ({ id: on, well: 'a', kind, atMs: Date.parse(on), createdMs: Date.parse(on), body }) as Entry;

describe('treatment', () => {
  test('is due on the day that the card gives for the next change, and by a round after it', () => {
    const card = { treatmentUnits: { sedimentFilter: { nextChange: '2026-07-01' } } };
    expect(check('treatment', card)).toMatchObject({ dueDate: '2026-07-01', state: 'due' });
    const done = entry('2026-07-02T10:00:00Z', 'check', { check: 'treatment', outcome: 'right' });
    expect(check('treatment', card, { entries: [done] }).dueDate).toBe('2027-07-02');
  });

  test('is not needed without a unit, nor for a lamp alone', () => {
    expect(check('treatment', {}).state).toBe('not-needed');
    expect(check('treatment', { treatment: ['UV lamp'] }).state).toBe('not-needed');
    expect(check('treatment', { treatment: ['softener, 2018'] }).state).toBe('not-recorded');
  });
});

describe('a UV lamp', () => {
  test('is due when its hours are over: 9,000 h are 375 days', () => {
    const card = { treatmentUnits: { uvLamp: { installed: '2025-06-01', lampLife: '9000 h' } } };
    expect(check('uv-lamp', card)).toMatchObject({ dueDate: '2026-06-11', state: 'overdue' });
  });

  test('is needed where the card names one in words', () => {
    expect(check('uv-lamp', { treatment: ['UV lamp, basement'] }).state).toBe('not-recorded');
    expect(check('uv-lamp', {}).state).toBe('not-needed');
  });
});

test('a backflow test is for irrigation, a yearly level for a well with a level or a permit', () => {
  expect(check('backflow', { use: 'irrigation' }).state).toBe('not-recorded');
  expect(check('backflow', { use: 'house' }).state).toBe('not-needed');
  expect(check('static-level', { permit: { number: 'W-88' } }).dueDate).toBe('2026-04-01');
  expect(check('static-level', {}).state).toBe('not-needed');
  const read = entry('2026-04-02T10:00:00Z', 'reading', { what: 'static-level', value: '41 ft' });
  expect(check('static-level', { hole: { staticLevel: '40 ft' } }, { entries: [read] }).dueDate).toBe(
    '2027-04-01',
  );
});

describe('a list for one occasion', () => {
  test('waits for it, and says what it waits for', () => {
    for (const kind of ['winterize', 'spring-start', 'after-flood', 'after-lightning', 'after-dry-well'])
      expect(check(kind, {})).toMatchObject({
        state: 'not-needed',
        reasons: [expect.stringMatching(/date/)],
      });
  });

  test('is due once a flood is recorded, and done with its day', () => {
    const flood = entry('2026-06-10T10:00:00Z', 'note', { text: 'x', event: 'flood' });
    expect(check('after-flood', {}, { entries: [flood] })).toMatchObject({
      dueDate: '2026-06-10',
      state: 'overdue',
      reasons: ['A flood was recorded on 2026-06-10.'],
    });
    const done = entry('2026-06-12T10:00:00Z', 'check', { check: 'after-flood', outcome: 'right' });
    expect(check('after-flood', {}, { entries: [flood, done] }).state).toBe('not-needed');
    const old = entry('2025-10-10T10:00:00Z', 'note', { text: 'x', event: 'flood' });
    expect(check('after-flood', {}, { entries: [old] }).state).toBe('not-needed');
  });

  test('is due once the pump ran dry', () => {
    const activeAlarms = [{ alarm: 'dry-run', sinceMs: NOW - 86_400_000 }];
    expect(check('after-dry-well', {}, { activeAlarms })).toMatchObject({ dueDate: '2026-06-14' });
  });

  test('is due on the day that somebody set', () => {
    const plan = entry('2026-06-01T10:00:00Z', 'check-plan', { check: 'winterize', next: '2026-10-05' });
    expect(check('winterize', {}, { entries: [plan] })).toMatchObject({ dueDate: '2026-10-05' });
    const done = entry('2026-10-04T10:00:00Z', 'check', { check: 'winterize', outcome: 'right' });
    expect(check('winterize', {}, { entries: [plan, done], nowMs: Date.parse('2026-10-20') }).state).toBe(
      'not-needed',
    );
  });
});
