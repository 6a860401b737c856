import { describe, expect, test } from 'vitest';
import { airVolumeOf, advanceAir, newAirState, type AirResponse } from '../../../src/core/hydraulics/air.ts';
import { estimatedResponse, learnCooling, newCoolingEstimate } from '../../../src/core/hydraulics/cooling.ts';
import {
  newTrace,
  traceAfter,
  traceBefore,
  traceRun,
  type Trace,
} from '../../../src/core/hydraulics/trace.ts';
import { row } from './model.ts';

/**
 * A fill of 80 s and ten minutes after it, of air that cools in `coolingS` and takes `warmRatio` of
 * the warmth, 1 where not given; `drawAfter` in rooms a second.
 */
function fill(options: {
  coolingS: number;
  warmRatio?: number;
  seed: number;
  drawAfter?: (s: number) => number;
}): Trace {
  const response = { coolingS: options.coolingS, warmRatio: options.warmRatio ?? 1 };
  const noise = row(options.seed);
  const trace = newTrace(0, 0);
  const air = newAirState(0, 376);
  let absolute = 376;
  let room = airVolumeOf(air, absolute);
  for (let s = 0; s < 760; s += 0.5) {
    room += s < 60 ? 0 : s < 140 ? -7e-6 * 0.5 : (options.drawAfter?.(s - 140) ?? 0) * 0.5;
    // The pressure at which warm air takes this room.
    for (let i = 0; i < 4; i++) {
      const next = { ...air };
      advanceAir(next, s * 1000, absolute, response);
      absolute *= airVolumeOf(next, absolute) / room;
    }
    advanceAir(air, s * 1000, absolute, response);
    if (s % 1 !== 0) continue;
    const kpa = absolute - 100 + (noise() + noise() + noise() - 1.5) * 2;
    if (s < 60) traceBefore(trace, s * 1000, kpa, 0);
    else if (s < 140) traceRun(trace, s * 1000, kpa);
    else {
      trace.stopS = 140 - trace.originMs / 1000;
      traceAfter(trace, s * 1000, kpa);
    }
  }
  return trace;
}

function learn(fills: Trace[]): AirResponse | undefined {
  const cooling = newCoolingEstimate();
  for (const trace of fills) learnCooling(cooling, trace, { atmosphereKpa: 100, noiseKpa: 0.5 });
  return estimatedResponse(cooling);
}

const seeds = [1, 2, 3, 4, 5, 6];

describe('coolingFound', () => {
  test.each([12, 25, 40, 90])('finds %d s from six fills', (coolingS) => {
    const found = learn(seeds.map((seed) => fill({ coolingS, seed })))!;
    expect(Math.abs(found.coolingS / coolingS - 1)).toBeLessThan(0.2);
    expect(found.warmRatio).toBeGreaterThan(0.8);
  });
  test.each([
    [60, 0.5],
    [120, 0.75],
    [200, 0.6],
  ])('finds %d s of air that takes %d of the warmth', (coolingS, warmRatio) => {
    const found = learn(seeds.map((seed) => fill({ coolingS, warmRatio, seed })))!;
    expect(Math.abs(found.warmRatio - warmRatio)).toBeLessThan(0.1);
    expect(Math.abs(found.coolingS / coolingS - 1)).toBeLessThan(0.3);
  });
  test('finds it beside a steady leak', () => {
    const found = learn(seeds.map((seed) => fill({ coolingS: 40, seed, drawAfter: () => 4e-8 })))!;
    expect(Math.abs(found.coolingS / 40 - 1)).toBeLessThan(0.25);
  });
  test('is not misled by fills with draws after them', () => {
    const drawn = seeds.map((seed) =>
      fill({ coolingS: 40, seed: seed + 10, drawAfter: (s) => (s > 30 && s < 90 ? 2e-6 : 0) }),
    );
    const found = learn([...drawn, ...seeds.map((seed) => fill({ coolingS: 40, seed }))])!;
    expect(Math.abs(found.coolingS / 40 - 1)).toBeLessThan(0.2);
  });
  test('says nothing before a fill told anything', () => {
    expect(learn([])).toBeUndefined();
  });
});
