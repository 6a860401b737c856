import { describe, expect, test } from 'vitest';
import {
  resetRest,
  recordRestQuality,
  recordRunQuality,
  resetDayQuality,
  newDayQuality,
  missingTotalReason,
} from '../../../src/core/hydraulics/day-quality.ts';

const AIR_KPA_L = 60_000;
const ATMOSPHERE_KPA = 101;
const TANK = { volumeL: 167, airL: 120 };

/** A rest as pressures, kPa gauge, one each `everyS`: litres that came unseen. */
function filledIn(pressures: readonly number[], everyS: number, breakAt = -1): number {
  const quality = newDayQuality();
  let lastRoom = 1 / (pressures[0]! + ATMOSPHERE_KPA);
  for (const [at, kpa] of pressures.entries()) {
    const room = 1 / (kpa + ATMOSPHERE_KPA);
    if (at === breakAt) resetRest(quality);
    recordRestQuality(quality, {
      stepMs: everyS * 1000,
      airVolume: room,
      lastAirVolume: lastRoom,
      noiseRatio: 0.002,
      airKpaL: AIR_KPA_L,
    });
    lastRoom = room;
  }
  return quality.unseenFillL;
}

const line = (from: number, to: number, n: number): number[] =>
  Array.from({ length: n }, (_, i) => from + ((to - from) * i) / (n - 1));
/** What the tank takes from 276 to 414 kPa, L. */
const WHOLE_L = AIR_KPA_L * (1 / (276 + ATMOSPHERE_KPA) - 1 / (414 + ATMOSPHERE_KPA));

describe('doubtRest', () => {
  test.each<[string, number[], number, [number, number]]>([
    ['a rest', line(400, 400, 100), 5, [0, 0]],
    ['water drawn', line(414, 276, 100), 5, [0, 0]],
    ['a fill of two minutes', [...line(276, 414, 24), ...line(414, 410, 50)], 5, [0.7, 1]],
    ['a fill seen by exception', [276, 276, 350, 414, 414, 414], 60, [0.7, 1]],
    ['a slow fill of a large tank', line(276, 414, 180), 5, [0.5, 1]],
    [
      'two fills with a draw between',
      [...line(276, 414, 24), ...line(414, 276, 200), ...line(276, 414, 24)],
      5,
      [1.4, 2],
    ],
    ['a morning that warms the tank', line(350, 375, 240), 60, [0, 0]],
    ['a tap that closes', [...line(330, 330, 9), ...line(350, 350, 99)], 5, [0, 0]],
    ['one reading that springs up', [...line(300, 300, 9), 600, ...line(300, 300, 9)], 5, [0, 0]],
    ['one reading that falls to nothing', [...line(300, 300, 9), 0, ...line(300, 300, 9)], 5, [0, 0]],
  ])('%s', (_, pressures, everyS, [least, most]) => {
    const share = filledIn(pressures, everyS) / WHOLE_L;
    expect(share).toBeGreaterThanOrEqual(least);
    expect(share).toBeLessThanOrEqual(most + 1e-9);
  });

  test('does not compare with a rest before a run', () => {
    expect(filledIn([276, 276, 276, 414, 414, 414], 60, 3)).toBe(0);
  });
});

describe('whyNoTotal', () => {
  interface Day {
    used: number;
    /** Runs: time in s, and whether their water is known. */
    runs?: [number, boolean][];
    filled?: number;
    airL?: number;
  }
  test.each<[string, Day, string | undefined]>([
    ['an ordinary day', { used: 270, runs: [[80, true]] }, undefined],
    ['nobody at home', { used: 0 }, undefined],
    ['nobody at home, and the tank warms', { used: -3 }, undefined],
    [
      'one short run of many not known',
      {
        used: 900,
        runs: [
          [960, true],
          [40, false],
        ],
      },
      undefined,
    ],
    [
      'a tenth of the run time not known',
      {
        used: 270,
        runs: [
          [90, true],
          [10, false],
        ],
      },
      'run-water-unknown',
    ],
    ['no run known', { used: 7, runs: [[5, false]] }, 'run-water-unknown'],
    ['one fill unseen of thirty', { used: 1200, filled: 40 }, undefined],
    ['one fill unseen of six', { used: 200, filled: 40 }, 'filled-unseen'],
    ['all fills unseen', { used: 0, filled: 270 }, 'filled-unseen'],
    ['a sum that is negative', { used: -30 }, 'more-came-than-went'],
    ['the tank empty at midnight', { used: 600, airL: 540 }, 'tank-was-empty'],
  ])('%s', (_, { used, runs = [], filled = 0, airL = TANK.airL }, why) => {
    const quality = { ...newDayQuality(), unseenFillL: filled };
    for (const [ranS, isKnown] of runs) recordRunQuality(quality, ranS, isKnown);
    expect(missingTotalReason(quality, used, { ...TANK, airL })).toBe(why);
  });
});

describe('endDoubtDay', () => {
  test('begins anew, but for the rest that goes on and the tank that is empty', () => {
    const quality = { ranS: 100, unknownRanS: 50, unseenFillL: 40, maxAirVolume: 0.002, excessAirL: 0 };
    resetDayQuality(quality, { volumeL: 167, airL: 200 });
    expect(quality).toEqual({ ...newDayQuality(), maxAirVolume: 0.002, excessAirL: 33 });
  });
});
