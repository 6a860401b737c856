/**
 * The limits in use against an independent reckoning of their run lengths: R's package spc (S.
 * Knoth), where it is installed. Zero-state, independent normal data.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { runLengthFor } from '../../../src/core/alarms/charts/false-alarm-budget.ts';
import { cusumArl, cusumLimit, ewmaArl, ewmaWidth } from '../../../src/core/alarms/charts/run-length.ts';
import { houseCard } from './scene-kit.ts';

const there = spawnSync('Rscript', ['-e', 'library(spc)']).status === 0;

/** Each call as R code; its value. */
function inR(calls: readonly string[]): number[] {
  const code = ['library(spc)', ...calls.map((call) => `cat(format(${call}, digits = 10), "\\n")`)].join(
    '; ',
  );
  return execFileSync('Rscript', ['-e', code], { encoding: 'utf8' }).trim().split(/\s+/).map(Number);
}

describe.skipIf(!there)('limits in use (skipped where R with spc is not installed)', () => {
  it('of the CUSUM give a run length no more than 1 % shorter and 8 % longer than what was asked for', () => {
    const asked = [0.25, 0.5, 0.75, 1].flatMap((k) =>
      [200, 1000, 10_000, 100_000, 1e6].map((arl) => ({ k, arl })),
    );
    // What a house of twelve runs a day asks for, at its usual budget and at others.
    for (const falseAlarmsPerYear of [0.02, 0.05, 0.1, 0.5, 2]) {
      const card = { ...houseCard(), falseAlarmsPerYear };
      asked.push({ k: 1, arl: runLengthFor('amps-high', 12 * 365, card) });
      asked.push({ k: 0.75, arl: runLengthFor('cycle-count', 365, card) });
    }
    const limits = asked.map(({ k, arl }) => cusumLimit(k, arl));
    const arls = inR(asked.map(({ k }, at) => `xcusum.arl(${k}, ${limits[at]}, 0, sided = "one", r = 60)`));
    for (const [at, { arl }] of asked.entries()) {
      expect(arls[at]! / arl).toBeGreaterThan(0.99);
      expect(arls[at]! / arl).toBeLessThan(1.08);
    }
  });
  // 7665 to 766,500 are what that house asks for at 2, 0.5, 0.1 and 0.02 false alarms a year.
  it('of the EWMA the same, up to a tenth of a decade more, and what few states make of it', () => {
    const asked = [200, 1000, 7665, 20_000, 30_660, 153_300, 400_000, 766_500].map((arl) => ({
      arl,
      width: ewmaWidth(0.1, arl),
    }));
    const arls = inR(asked.map(({ width }) => `xewma.arl(0.1, ${width}, 0, sided = "two", r = 60)`));
    for (const [at, { arl }] of asked.entries()) {
      expect(arls[at]! / arl).toBeGreaterThan(0.98);
      expect(arls[at]! / arl).toBeLessThan(1.4);
    }
  });
  it('and our own reckoning agrees with it, also after a shift', () => {
    const shifts = [0, 0.5, 1, 2];
    const cusum = inR(shifts.map((shift) => `xcusum.arl(0.5, 5, ${shift}, sided = "one", r = 60)`));
    const ewma = inR(shifts.map((shift) => `xewma.arl(0.2, 2.962, ${shift}, sided = "two", r = 60)`));
    for (const [at, shift] of shifts.entries()) {
      expect(cusumArl({ k: 0.5, h: 5, shift }) / cusum[at]!).toBeCloseTo(1, 2);
      expect(ewmaArl({ lambda: 0.2, width: 2.962, shift }) / ewma[at]!).toBeCloseTo(1, 2);
    }
  });
});
