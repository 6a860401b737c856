import { describe, expect, test } from 'vitest';
import { newTrace, traceAfter, traceBefore, traceRun, AFTER_S } from '../../../src/core/hydraulics/trace.ts';

describe('trace', () => {
  test('keeps the last minute before a run, whatever came earlier', () => {
    const trace = newTrace(0, 0);
    for (let s = 0; s < 3600; s++) traceBefore(trace, s * 1000, 300 + s / 100, 0);
    const { s, kpa } = trace.before;
    expect(s.length).toBeLessThanOrEqual(10);
    expect(trace.originMs / 1000 + s.at(-1)!).toBeGreaterThan(3590);
    for (const [i, at] of s.entries())
      expect(kpa[i]).toBeCloseTo(300 + (trace.originMs / 1000 + at) / 100, 1);
  });

  test.each([30, 118, 4000])('thins a run of %d s to two dozen points that lie on its course', (ranS) => {
    const trace = newTrace(0, 0);
    for (let s = 0; s <= ranS; s++) traceRun(trace, s * 1000, 280 + s / 50);
    const { s, kpa } = trace.run;
    expect(s.length).toBeGreaterThan(10);
    expect(s.length).toBeLessThan(24);
    for (const [i, at] of s.entries()) expect(kpa[i]).toBeCloseTo(280 + at / 50, 1);
    expect(s.toSorted((a, b) => a - b)).toEqual(s);
  });

  test('takes the rest after it in growing steps', () => {
    const trace = newTrace(0, 0);
    trace.stopS = 0;
    for (let s = 0; s < AFTER_S; s++) traceAfter(trace, s * 1000, 400);
    const { s } = trace.after;
    expect(s.length).toBeLessThan(26);
    expect(s.filter((at) => at < 15).length).toBeGreaterThanOrEqual(4);
  });
});
