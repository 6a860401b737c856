/** Where a pump works, against worked figures. */
import { describe, expect, test } from 'vitest';
import type { CycleEvent } from '../../../shared/api/events.ts';
import { curveOf, dutyPoint, headAt } from '../../../src/logbook/figures/duty-point.ts';

const FT = 0.3048;
const GPM = 3.785411784 / 60;

/** 10 gpm for 100 s between 40 and 60 psi, at 800 W. */
const run = (more: Partial<CycleEvent> = {}): CycleEvent => ({
  event: 'cycle',
  well: 'a',
  pump: 'p1',
  started: '2026-05-01T00:00:00Z',
  stopped: '2026-05-01T00:01:40Z',
  ranS: 100,
  cutInKpa: 275.8,
  cutOutKpa: 413.7,
  deliveredL: 10 * GPM * 100,
  energyWh: (800 * 100) / 3600,
  flags: [],
  ...more,
});
const RUNS = [run(), run(), run()];
const CURVE = [
  { flowLPerS: 5 * GPM, headM: 340 * FT },
  { flowLPerS: 15 * GPM, headM: 200 * FT },
];

describe('dutyPoint', () => {
  test('50 psi over water at 85 ft is 200 ft of head (2.31 ft a psi)', () => {
    const point = dutyPoint({ runs: RUNS, pumpingLevelM: 84.5 * FT, curve: CURVE });
    expect(point?.flowLPerS).toBeCloseTo(10 * GPM, 6);
    expect(point!.headM! / FT).toBeCloseTo(200, 0);
    // Halfway between the points of the curve.
    expect(point!.curveHeadM! / FT).toBeCloseTo(270, 3);
    expect(point?.headRatio).toBeCloseTo(200 / 270, 2);
  });

  test('10 gpm to 200 ft is 0.505 hp in the water (gpm x ft / 3,960): 47 % of 800 W', () => {
    const point = dutyPoint({ runs: RUNS, pumpingLevelM: 84.5 * FT, curve: [] });
    expect(point?.efficiency).toBeCloseTo((0.505 * 745.7) / 800, 2);
    // 800 W at 600 gal an hour.
    expect((point!.whPerL! * 3785.411784) / 1000).toBeCloseTo(0.8 / 0.6, 3);
  });

  test('what was not measured is absent', () => {
    const point = dutyPoint({ runs: RUNS.map(({ energyWh: _energy, ...rest }) => rest), curve: CURVE });
    expect(Object.keys(point ?? {}).toSorted()).toEqual(['curveHeadM', 'flowLPerS']);
    expect(dutyPoint({ runs: [run(), run()], curve: [] })).toBeUndefined();
    const unmetered = RUNS.map(({ deliveredL: _delivered, ...rest }) => rest);
    expect(dutyPoint({ runs: unmetered, curve: [] })).toBeUndefined();
  });
});

test('headAt reads between points and not beyond them', () => {
  expect(headAt(CURVE, 4 * GPM)).toBeUndefined();
  expect(headAt(CURVE, 16 * GPM)).toBeUndefined();
  expect(headAt(CURVE, 15 * GPM)! / FT).toBeCloseTo(200, 6);
  expect(headAt([], 1)).toBeUndefined();
});

test('curveOf adds the shut-off head where the curve has none, and sorts by flow', () => {
  const curve = [CURVE[1]!, CURVE[0]!];
  expect(curveOf({ curve, shutOffHeadM: 118 }).map(({ headM }) => Math.round(headM))).toEqual([118, 104, 61]);
  expect(curveOf({ curve: [{ flowLPerS: 0, headM: 100 }], shutOffHeadM: 118 })).toHaveLength(1);
  expect(curveOf(undefined)).toEqual([]);
});
