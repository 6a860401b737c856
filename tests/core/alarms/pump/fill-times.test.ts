import { describe, expect, test } from 'vitest';
import { comparableFills, fillErrorS, quickestFill } from '../../../../src/core/alarms/pump/fill-times.ts';
import type { Scene } from '../../../../src/core/alarms/scene.ts';
import type { Cycle } from '../../../../src/core/cycles/cycle.ts';
import { houseCard, normal, PSI, usualBaseline } from '../scene-kit.ts';

const fill = (ranS: number, change: Partial<Cycle> = {}): Cycle => ({
  pump: 0,
  startedMs: 0,
  stoppedMs: ranS * 1000,
  ranS,
  readings: ranS,
  cutInKpa: 40 * PSI,
  cutOutKpa: 60 * PSI,
  flags: [],
  ...change,
});

function sceneOf(cycles: Cycle[], ranMinS?: number): Scene {
  const baseline = usualBaseline({ ...(ranMinS !== undefined && { ranMinS }), ranLowS: normal(100, 4) });
  const card = houseCard();
  return {
    atMs: 1e9,
    trigger: 'cycle',
    pump: { index: 0, card: card.pumps[0]!, cycles, pinned: baseline, baseline },
    well: { card },
  } as unknown as Scene;
}

describe('comparableFills', () => {
  test('leaves out runs over another band and runs that were not seen whole', () => {
    const cycles = [fill(100), fill(60, { cutOutKpa: 50 * PSI }), fill(90, { flags: ['gap'] }), fill(110)];
    expect(comparableFills(sceneOf(cycles), 8).map(({ ranS }) => ranS)).toEqual([100, 110]);
  });
});

describe('quickestFill', () => {
  test('is held against the quickest first learned, else against the lower quartile', () => {
    const fills = [fill(150), fill(120), fill(135)];
    expect(quickestFill(sceneOf(fills, 96), fills)).toEqual({ ratio: 1.25, error: 0 });
    expect(quickestFill(sceneOf(fills), fills)).toEqual({ ratio: 1.2, error: 0 });
    expect(quickestFill(sceneOf([]), [])).toBeUndefined();
  });

  test('is known to one reading where readings are seconds apart', () => {
    expect(fillErrorS(fill(120, { readings: 12, flags: ['coarse'] }))).toBe(10);
    expect(fillErrorS(fill(120, { readings: 5 }))).toBe(0);
  });
});
