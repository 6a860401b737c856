import { expect, test } from 'vitest';
import type { Baseline } from '../../../src/core/baseline/baseline.ts';
import type { Entry, EntryOf } from '../../../shared/entries/entry.ts';
import { newestReadings } from '../../../src/logbook/readings/newest-readings.ts';

const MARCH = Date.parse('2026-03-12T10:00:00Z');
const DAY_MS = 86_400_000;

type Reading = EntryOf<'reading'>;

function reading(id: string, atMs: number, body: Reading['body']): Reading {
  return { id, well: 'barn', kind: 'reading', atMs, createdMs: atMs, body };
}

const normal = (median: number) => ({ median, spread: 0.1, n: 40 });
const usual: Baseline = {
  atMs: MARCH,
  pinned: false,
  amps: normal(7.9),
  cutInKpa: normal(283),
  cutOutKpa: normal(410),
};

test('what sensors usually read stands until a person brings a newer reading', () => {
  const older = reading('a', MARCH - DAY_MS, { what: 'amps', value: '8.4 A' });
  expect(newestReadings({ pump: 'p1', baseline: usual, entries: [older] }).amps).toEqual({
    si: 7.9,
    atMs: MARCH,
    from: 'sensors',
  });
  const newer = reading('b', MARCH + DAY_MS, { what: 'amps', value: '8.1 A', from: 'hand' });
  expect(newestReadings({ pump: 'p1', baseline: usual, entries: [older, newer] }).amps).toEqual({
    si: 8.1,
    atMs: MARCH + DAY_MS,
    from: 'hand',
  });
});

test('a reading that was put right or struck out does not count', () => {
  const wrong = reading('a', MARCH, { what: 'static-level', value: '620 ft' });
  const right: Entry = { ...reading('b', MARCH, { what: 'static-level', value: '62 ft' }), replaces: 'a' };
  const facts = newestReadings({ pump: 'p1', baseline: undefined, entries: [wrong, right] });
  expect(facts['static-level']?.si).toBeCloseTo(18.9, 2);
  const struck: Entry = { ...wrong, id: 'c', kind: 'struck', replaces: 'a', body: {} };
  expect(newestReadings({ pump: 'p1', baseline: undefined, entries: [wrong, struck] })).toEqual({});
});

test('a check of the tank’s air is a reading of it: as it was left, else as it was found', () => {
  const read = reading('a', MARCH, { what: 'precharge', value: '31 psi' });
  type Check = Omit<EntryOf<'check'>['body'], 'check'>;
  const check = (body: Check): Entry => ({
    ...read,
    id: 'b',
    atMs: MARCH + DAY_MS,
    createdMs: MARCH + DAY_MS,
    kind: 'check',
    body: { check: 'precharge', ...body },
  });
  const psi = (body: Check): number =>
    newestReadings({ pump: 'p1', baseline: undefined, entries: [read, check(body)] }).precharge!.si /
    6.894757;
  expect(psi({ outcome: 'put-right', value: '25 psi', left: '38 psi' })).toBeCloseTo(38, 3);
  expect(psi({ outcome: 'right', value: '37 psi' })).toBeCloseTo(37, 3);
  expect(psi({ outcome: 'not-done', value: '25 psi' })).toBeCloseTo(31, 3);
  expect(psi({ outcome: 'right' })).toBeCloseTo(31, 3);
});

test('a reading of one pump is not another’s, and one that names none is the first’s', () => {
  const entries = [
    reading('a', MARCH, { what: 'capacitor', value: '59 uF', pump: 'p2' }),
    reading('b', MARCH, { what: 'precharge', value: '36 psi' }),
  ];
  expect(Object.keys(newestReadings({ pump: 'p1', baseline: undefined, entries }))).toEqual(['precharge']);
  expect(Object.keys(newestReadings({ pump: 'p2', baseline: undefined, entries }))).toEqual(['capacitor']);
});
