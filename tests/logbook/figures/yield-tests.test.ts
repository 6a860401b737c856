/** Yield tests: drawdown, specific capacity, recovery, and over the years. */
import { describe, expect, test } from 'vitest';
import type { Entry } from '../../../shared/entries/entry.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';
import { readEntry } from '../../../src/logbook/entries/read-entry.ts';
import { yieldTests } from '../../../src/logbook/figures/yield-tests.ts';

const FT = 0.3048;
const GPM = 3.785411784 / 60;

function entry(body: object, on = '2026-05-01T12:00:00Z'): Entry {
  const json = { kind: 'yield-test', well: 'a', at: on, ...body };
  const read = readEntry(json, { id: on, createdMs: Date.parse('2026-06-01') });
  if ('problem' in read) throw new Error(read.problem);
  return read.entry;
}

function problem(body: object): string {
  const read = readEntry({ kind: 'yield-test', well: 'a', ...body }, { id: 'x', createdMs: Date.now() });
  return 'problem' in read ? read.problem : '';
}

function card(hole: object = {}) {
  const read = readCard({ well: 'a', hole });
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

describe('a test', () => {
  const points = ['1 min, 52 ft, 12 gpm', '30 min, 90 ft, 10 gpm', '60 min, 96 ft, 10 gpm'];

  test('gives drawdown, specific capacity and recovery', () => {
    // 55 ft of drawdown at (29 min x 12 gpm + 30 min x 10 gpm) / 59 min = 10.98 gpm: 0.2 gpm/ft.
    const [one] = yieldTests([entry({ static: '41 ft', points, recovery: ['30 min, 44 ft'] })], card());
    expect(one!.drawdownM! / FT).toBeCloseTo(55, 6);
    expect(one!.flowLPerS! / GPM).toBeCloseTo(10.983, 3);
    expect((one!.specificCapacity! / GPM) * FT).toBeCloseTo(0.1997, 4);
    expect(one?.recoveredRatio).toBeCloseTo(52 / 55, 6);
    expect(one).toMatchObject({ pumpedS: 3600, recoveredS: 1800, date: '2026-05-01' });
    expect(one!.lateFallM! / FT).toBeCloseTo(6, 6);
  });

  test('without a static level has no drawdown, and without a fall no specific capacity', () => {
    const [one] = yieldTests([entry({ flow: '10 gpm', points: ['5 min, 50 ft'] })], card());
    expect(one?.flowLPerS).toBeCloseTo(10 * GPM, 9);
    expect(one).not.toHaveProperty('drawdownM');
    const sparse = ['1 min, 50 ft', '60 min, 90 ft'];
    const [gap] = yieldTests([entry({ flow: '10 gpm', points: sparse })], card());
    expect(gap).not.toHaveProperty('lateFallM');
    const [flat] = yieldTests([entry({ static: '50 ft', flow: '10 gpm', points: ['5 min, 50 ft'] })], card());
    expect(flat?.drawdownM).toBe(0);
    expect(flat).not.toHaveProperty('specificCapacity');
  });
});

test('tests stand newest first, the well log’s oldest, each against the oldest', () => {
  const now = entry({ static: '41 ft', flow: '10 gpm', points: ['60 min, 91 ft'] });
  const hole = {
    testDate: '2004',
    testFlow: '12 gpm',
    testDrawdown: '40 ft',
    testTime: '4 h',
    testRecovery: '2 h',
  };
  const [newest, log] = yieldTests([now], card(hole));
  expect(log).toMatchObject({ date: '2004', pumpedS: 14_400, recoveredS: 7200, points: [] });
  expect(log).not.toHaveProperty('change');
  // 0.2 gpm/ft is a third less than 0.3.
  expect(newest?.change).toBeCloseTo(-1 / 3, 6);
});

describe('what is refused', () => {
  test.each<[object, RegExp]>([
    [{}, /points must be given/],
    [{ points: ['10 min'] }, /points must each be a time, a level and, if read, a flow/],
    [{ points: ['10 min, 85 ft'] }, /flow must be given, here or in the lines/],
    [{ points: ['10 min, 85 ft, 8 gpm', '5 min, 86 ft'] }, /points must each be later than the line before/],
    [{ points: ['10 min, 85 ft, 8 gpm'], recovery: ['5 ft'] }, /recovery must each be/],
  ])('%j', (body, message) => expect(problem(body)).toMatch(message));
});
