/** Tank, pipes, well and tee of the second plant against textbooks. */
import { describe, expect, it } from 'vitest';
import { inflow, newAquifer, stepAquifer } from '../../../src/lab/second-plant/aquifer.ts';
import {
  frictionM,
  frictionSlope,
  headOfKpa,
  joukowskyKpa,
  kpaOfHead,
  pipeAreaM2,
  velocityKpa,
} from '../../../src/lab/second-plant/pipe.ts';
import { ringKpa, strike } from '../../../src/lab/second-plant/ring.ts';
import { gaugeKpa, newTank, setAir, stepTank } from '../../../src/lab/second-plant/tank.ts';
import { supplyRatio } from '../../../src/lab/second-plant/supply.ts';
import { house } from './wells.ts';

const psi = (value: number): number => value * 6.894757293168;
const GALLON_L = 3.785411784;

describe('the tank', () => {
  const plan = { volumeL: 85 * GALLON_L, prechargeKpa: psi(28), polytropic: 1 };

  it('gives 25.1 gal of 85 between 50 and 30 psi (Pelikan, The Driller 2006: 0.295)', () => {
    const tank = newTank(plan, psi(14.7), psi(50));
    const full = tank.waterL;
    while (gaugeKpa(tank) > psi(30)) stepTank(tank, -0.01, 1);
    expect((full - tank.waterL) / GALLON_L).toBeCloseTo(25.1, 1);
  });

  it('is stiffer in a quick change, and at rest comes back to Boyle', () => {
    const quick = newTank({ ...plan, polytropic: 1.4 }, psi(14.7), psi(40));
    const slow = newTank(plan, psi(14.7), psi(40));
    for (let i = 0; i < 50; i++) for (const tank of [quick, slow]) stepTank(tank, 0.5, 0.2);
    const first = gaugeKpa(quick) - gaugeKpa(slow);
    expect(first).toBeGreaterThan(5);
    for (let i = 0; i < 1200; i++) stepTank(quick, 0, 1);
    expect(gaugeKpa(quick) - gaugeKpa(slow)).toBeLessThan(0.1);
  });

  it('with next to no air moves far for little water, and is empty at once over its precharge', () => {
    const tank = newTank(plan, psi(14.7), psi(40));
    setAir(tank, 0.1);
    expect(gaugeKpa(tank)).toBe(0);
    const charged = newTank(plan, psi(14.7), psi(28));
    stepTank(charged, -0.2, 0.2);
    expect(gaugeKpa(charged)).toBeLessThan(psi(28) - 100);
    for (let i = 0; i < 10; i++) stepTank(charged, -1, 1);
    expect(gaugeKpa(charged)).toBe(0);
  });
});

describe('pipes', () => {
  it('lose 10.67 L Q^1.852 / (C^1.852 d^4.87): 100 m of 50 mm at 1 L/s and C 140 lose 0.68 m', () => {
    // Worked by hand: 10.67 x 100 x 0.001^1.852 / (140^1.852 x 0.05^4.87).
    const pipe = { lengthM: 100, diameterM: 0.05 };
    expect(frictionM(pipe, 1)).toBeCloseTo(0.68, 2);
    expect(frictionSlope(pipe, 2) * 4).toBeCloseTo(frictionM(pipe, 2), 9);
    expect(frictionM(pipe, 2) / frictionM(pipe, 1)).toBeCloseTo(2 ** 1.852, 6);
  });

  it('have 0.5 kPa of velocity head at 1 m/s, and 2.31 ft of head a psi (reference 3.1)', () => {
    expect(velocityKpa(1000 * pipeAreaM2(0.027), 0.027)).toBeCloseTo(0.5, 9);
    expect(headOfKpa(psi(1)) / 0.3048).toBeCloseTo(2.3067, 3);
    expect(kpaOfHead(headOfKpa(123))).toBeCloseTo(123, 9);
  });

  it('strike with density x celerity x velocity (Joukowsky): 1 m/s at 400 m/s is 400 kPa', () => {
    expect(joukowskyKpa(400, 1)).toBe(400);
    const ring = { kpa: 0, sinceMs: 0 };
    strike(ring, 0, -0.6, 0.027);
    expect(ringKpa(ring, 0)).toBeLessThan(-10);
    expect(Math.abs(ringKpa(ring, 3000))).toBeLessThan(1);
    expect(ringKpa(ring, 9000)).toBe(0);
    expect(ring.kpa).toBe(0);
  });
});

describe('the well', () => {
  const plan = house().aquifer;

  it('draws down and recovers as one storage does: 63 % after storage over conductance', () => {
    // Large near storage: the casing alone, s(t) = Q/k (1 - exp(-k t / A)).
    const alone = { ...plan, nearLPerM: 1e9, aquiferLPerSPerM: 1e9 };
    const state = newAquifer();
    const pump = { pumpedLPerS: 0.5, screenOpen: 1, dtS: 0.1 };
    for (let i = 0; i < 900; i++) stepAquifer(alone, state, pump);
    expect(state.casingFallM).toBeCloseTo(2.5 * (1 - Math.exp(-1)), 2);
    for (let i = 0; i < 900; i++) stepAquifer(alone, state, { ...pump, pumpedLPerS: 0 });
    expect(state.casingFallM).toBeCloseTo(2.5 * (1 - Math.exp(-1)) * Math.exp(-1), 2);
  });

  it('settles where as much flows in as is pumped: Q (1/screen + 1/aquifer)', () => {
    const state = newAquifer();
    for (let i = 0; i < 40_000; i++) stepAquifer(plan, state, { pumpedLPerS: 0.4, screenOpen: 1, dtS: 1 });
    expect(state.casingFallM).toBeCloseTo(0.4 / 0.2 + 0.4 / 0.4, 3);
    expect(inflow(plan, state, 1)).toBeCloseTo(0.4, 3);
  });
});

describe('supplyRatio', () => {
  it('is lowest in the evening', () => {
    const plan = { ratio: 1, eveningDip: 0.03, wander: 0 };
    expect(supplyRatio(plan, { wander: 0 }, 19)).toBeCloseTo(0.97, 9);
    expect(supplyRatio(plan, { wander: 0 }, 7)).toBeCloseTo(1, 6);
  });
});
