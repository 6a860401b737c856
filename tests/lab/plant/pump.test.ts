import { describe, expect, it } from 'vitest';
import { newHole, liftM, stepHole } from '../../../src/lab/plant/hole.ts';
import {
  driveAmps,
  driveIdleAmps,
  lockedRotorAmps,
  runningAmps,
  shaftSpeed,
  type Load,
} from '../../../src/lab/plant/motor.ts';
import { HEALTHY, type PumpPlan } from '../../../src/lab/plant/params.ts';
import { pumpFlow, shutLossM } from '../../../src/lab/plant/pump.ts';
import { PUMP } from './wells.ts';

const NO_PIPE = { ...PUMP, frictionM: 0 };
const flow = (
  wrong: Partial<typeof HEALTHY> = {},
  at: { liftM?: number; kpa?: number; speed?: number } = {},
): number => pumpFlow(PUMP, { ...HEALTHY, ...wrong }, { liftM: 24, kpa: 350, speed: 1, ...at });

/**
 * Head that the pump makes at a flow, m: the curve itself, which the pump's flow is solved from. A
 * quarter of its fall is linear.
 */
function pumpHeadM(plan: PumpPlan, flowLPerS: number, speed = 1): number {
  const x = flowLPerS / plan.runOutLPerS;
  return plan.shutOffHeadM * (speed * speed - (speed * x) / 4 - (3 / 4) * x * x);
}

describe('the pump', () => {
  // Affinity laws, Q ~ n, H ~ n^2; 60 to 50 Hz: 0.8333 and 0.6944 (page "Affinity Law"; computed).
  it.each([1, 0.9, 0.8333, 0.6])('keeps the affinity laws at %f of its speed', (speed) => {
    const headM = 60;
    const full = pumpFlow(NO_PIPE, HEALTHY, { liftM: headM, kpa: 0, speed: 1 });
    const slow = pumpFlow(NO_PIPE, HEALTHY, { liftM: headM * speed * speed, kpa: 0, speed });
    expect(slow / full).toBeCloseTo(speed, 6);
    expect(pumpHeadM(NO_PIPE, slow, speed)).toBeCloseTo(headM * speed * speed, 6);
  });

  it('stands at shut-off head without flow and at run-out without head', () => {
    expect(pumpFlow(NO_PIPE, HEALTHY, { liftM: 92, kpa: 0, speed: 1 })).toBeCloseTo(0, 6);
    expect(pumpFlow(NO_PIPE, HEALTHY, { liftM: 0, kpa: 0, speed: 1 })).toBeCloseTo(0.92, 6);
    expect(flow({}, { kpa: 2000 })).toBe(0);
  });

  it('balances lift, pressure and friction', () => {
    const q = flow();
    expect(pumpHeadM(PUMP, q)).toBeCloseTo(24 + 350 / 9.80665 + 6 * q * q, 6);
  });

  it.each([
    { name: 'wear', wrong: { worn: 0.1 }, from: 0.6, to: 0.92 },
    { name: 'a valve half shut', wrong: { shut: 0.5 }, from: 0.98, to: 1 },
    { name: 'a valve nine tenths shut', wrong: { shut: 0.9 }, from: 0.6, to: 0.95 },
    { name: 'a shut valve', wrong: { shut: 1 }, from: 0, to: 0 },
    { name: 'turning backwards', wrong: { backwards: true }, from: 0, to: 0.3 },
  ])('lifts less with $name', ({ wrong, from, to }) => {
    const share = flow(wrong) / flow();
    expect(share).toBeGreaterThanOrEqual(from);
    expect(share).toBeLessThanOrEqual(to);
  });

  it('loses nothing in an open valve', () => {
    expect(shutLossM(0)).toBe(0);
    expect(shutLossM(0.01)).toBeLessThan(0.01);
  });
});

const load = (over: Partial<Load> = {}): Load => ({
  flowLPerS: 0.6,
  speed: 1,
  sucksAir: false,
  voltRatio: 1,
  warm: 1,
  ...over,
});

describe('the motor', () => {
  const amps = (over: Partial<Load> = {}, wrong: Partial<typeof HEALTHY> = {}): number =>
    runningAmps(PUMP, { ...HEALTHY, ...wrong }, load(over));

  it('draws what the plan says at both ends of its curve', () => {
    expect(amps({ flowLPerS: 0 })).toBeCloseTo(5.2, 6);
    expect(amps({ flowLPerS: 0.92 })).toBeCloseTo(8.3, 6);
  });

  it('draws more on low volts when loaded, and on high volts when idle', () => {
    expect(amps({ voltRatio: 0.9 }) / amps()).toBeGreaterThan(1.03);
    expect(amps({ voltRatio: 0.9 }) / amps()).toBeLessThan(1.1);
    expect(amps({ flowLPerS: 0, voltRatio: 1.1 }) / amps({ flowLPerS: 0 })).toBeGreaterThan(1);
    expect(shaftSpeed(HEALTHY, 0.9)).toBeLessThan(1);
  });

  it('draws about half on air, more with drag, less when worn, a little more when cold', () => {
    expect(amps({ sucksAir: true }) / amps()).toBeGreaterThan(0.4);
    expect(amps({ sucksAir: true }) / amps()).toBeLessThan(0.6);
    expect(amps({}, { drag: 0.1 }) / amps()).toBeCloseTo(1.1, 6);
    expect(amps({}, { worn: 0.1 }) / amps()).toBeLessThan(0.98);
    expect(amps({ warm: 0 }) / amps()).toBeCloseTo(1.012, 6);
  });

  // P ~ n^3 (page "Affinity Law"): the drive's current is power and little else.
  it('behind a drive draws power: about half at eight tenths of speed', () => {
    const at = (speed: number): number => driveAmps(PUMP, HEALTHY, load({ speed, flowLPerS: 0.6 * speed }));
    expect(at(0.8) / at(1)).toBeGreaterThan(0.5);
    expect(at(0.8) / at(1)).toBeLessThan(0.55);
    expect(driveIdleAmps(PUMP)).toBeLessThan(0.1);
  });

  // NEC code letter L for 1 hp, 230 V, one phase: 39.1 to 43.4 A at 8 A of full load: 4.9 to 5.4
  // times; "typically six or more" (EC&M 2023).
  it('takes five to six times its full current when locked', () => {
    expect(lockedRotorAmps(PUMP, 1) / PUMP.fullFlowAmps).toBeGreaterThan(4.9);
    expect(lockedRotorAmps(PUMP, 1) / PUMP.fullFlowAmps).toBeLessThan(6.5);
  });

  it('uses more power than the water takes', () => {
    const q = flow();
    const water = 9.80665 * q * pumpHeadM(PUMP, q);
    const share = water / (230 * amps({ flowLPerS: q }));
    expect(share).toBeGreaterThan(0.15);
    expect(share).toBeLessThan(0.55);
  });
});

describe('the hole', () => {
  const plan = { staticLevelM: 20, intakeM: 45, yieldLPerSPerM: 0.2, boreLPerM: 18 };
  const pump = (hole: ReturnType<typeof newHole>, lPerS: number, seconds: number, dtS = 1): void => {
    for (let s = 0; s < seconds; s += dtS) stepHole(plan, hole, HEALTHY, { pumpedLPerS: lPerS, dtS });
  };

  it('falls to what its yield gives within minutes, further within hours, and comes back', () => {
    const hole = newHole(0.5);
    pump(hole, 0.5, 600);
    const soon = hole.drawdownM;
    expect(soon).toBeGreaterThan(2.4);
    expect(soon).toBeLessThan(2.7);
    pump(hole, 0.5, 24 * 3600);
    expect(hole.drawdownM).toBeCloseTo(0.5 / 0.2 + 0.5 / 0.8, 1);
    pump(hole, 0, 600, 5);
    expect(hole.drawdownM).toBeLessThan(0.7);
  });

  it('sucks air at the intake until the level has risen', () => {
    const hole = newHole(0.5);
    pump(hole, 8, 200);
    expect(hole.sucksAir).toBe(true);
    expect(liftM(plan, hole, HEALTHY)).toBeCloseTo(45, 6);
    pump(hole, 0, 60);
    expect(hole.sucksAir).toBe(false);
  });

  it('lies lower by what the water table fell', () => {
    expect(liftM(plan, newHole(0.5), { ...HEALTHY, levelFallM: 7 })).toBe(27);
  });
});
