import { describe, expect, it } from 'vitest';
import { demoWells } from '../../src/lab/demo-wells.ts';
import { newTank, tankGaugeKpa, tankStep } from '../../src/lab/model/tank.ts';
import { newSimulatedWell, simulate, type Sample } from '../../src/lab/model/well.ts';
import { seeded } from '../../src/lab/model/random.ts';

const NOON = Date.UTC(2026, 5, 1, 19);
const HOUR = 3_600_000;

describe('the simulated tank', () => {
  // Drawdown factors by Boyle's law at sea level, The Driller 2006 (30/50 with 28 psi: 0.295) and
  // the table computed from it.
  it.each([
    { name: '20/40', precharge: 18, cutIn: 20, cutOut: 40, factor: 0.3446 },
    { name: '30/50', precharge: 28, cutIn: 30, cutOut: 50, factor: 0.2953 },
    { name: '40/60', precharge: 38, cutIn: 40, cutOut: 60, factor: 0.2579 },
    { name: '50/70', precharge: 48, cutIn: 50, cutOut: 70, factor: 0.2288 },
  ])('holds the handbook drawdown at $name when drawn slowly', ({ precharge, cutIn, cutOut, factor }) => {
    const kpa = (psi: number): number => psi * 6.894757293168;
    const tank = newTank(100, kpa(precharge), 101.325, kpa(cutOut));
    let drawn = 0;
    while (tankGaugeKpa(tank, 101.325) > kpa(cutIn)) {
      tankStep(tank, -0.002, 20);
      drawn += 0.002;
    }
    expect(drawn / 100).toBeCloseTo(factor, 3);
  });

  it('warms when filled fast and comes back down as it cools', () => {
    const tank = newTank(200, 262, 101.325, 280);
    for (let i = 0; i < 60; i++) tankStep(tank, 0.6, 1);
    const hot = tankGaugeKpa(tank, 101.325);
    for (let i = 0; i < 1200; i++) tankStep(tank, 0, 1);
    const cool = tankGaugeKpa(tank, 101.325);
    expect(hot - cool).toBeGreaterThan(3);
    expect(cool).toBeGreaterThan(280);
  });
});

describe('the simulated farm', () => {
  it('runs each healthy pump between its switch points', () => {
    const samples: Sample[] = [];
    const well = newSimulatedWell(demoWells(NOON + 400 * 24 * HOUR)[0]!.params, NOON);
    simulate(well, NOON + 48 * HOUR, 5, (s) => samples.push(s));
    expect(samples).toHaveLength((48 * 3600) / 5);
    const kpa = samples.map((s) => s.kpa).sort((a, b) => a - b);
    expect(kpa[Math.floor(kpa.length * 0.001)]!).toBeGreaterThan(260);
    expect(kpa[Math.floor(kpa.length * 0.999)]!).toBeLessThan(430);
    expect(well.liftedL).toBeGreaterThan(300);
    expect(Math.abs(well.liftedL - well.drawnL)).toBeLessThan(80);
  });

  it('draws less current and lifts less when the pump is worn', () => {
    const south = demoWells(NOON)[3]!.params;
    const amps = (fromMs: number): number[] => {
      const out: number[] = [];
      simulate(newSimulatedWell(south, fromMs), fromMs + 24 * HOUR, 5, (s) => {
        if (s.running) out.push(s.amps);
      });
      return out.sort((a, b) => a - b);
    };
    const early = amps(NOON - 50 * 24 * HOUR);
    const late = amps(NOON - 24 * HOUR);
    expect(late[late.length >> 1]! / early[early.length >> 1]!).toBeLessThan(0.96);
  });

  it('gives the same wells for the same seed', () => {
    const take = (): Sample[] => {
      const out: Sample[] = [];
      simulate(newSimulatedWell(demoWells(NOON)[1]!.params, NOON), NOON + HOUR, 5, (s) => out.push(s));
      return out;
    };
    expect(take()).toEqual(take());
    expect(seeded(3).next()).not.toBe(seeded(4).next());
  });
});
