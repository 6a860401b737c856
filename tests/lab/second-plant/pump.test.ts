/** Pump and motor of the second plant against textbooks. */
import { describe, expect, it } from 'vitest';
import {
  lockedRotorAmps,
  ratedAmps,
  runningAmps,
  serviceAmps,
  speedAt,
  stepOverload,
} from '../../../src/lab/second-plant/motor.ts';
import { pumpFlows, shaftW, shutOffPowerRatio } from '../../../src/lab/second-plant/pump-curve.ts';
import { PUMP } from './wells.ts';

const DUTY = { speed: 1, staticM: 50, lossM: 0, ringLeak: 0, hole: 0 };
const amps = (part: number, voltRatio = 1): number =>
  runningAmps(PUMP, { shaftW: part * PUMP.motor.ratedW, voltRatio, reactiveRatio: 1 }).amps;

describe('pumpFlows', () => {
  it('passes the best point, and stops at the head of no flow', () => {
    expect(pumpFlows(PUMP, { ...DUTY, staticM: 60 }).delivered).toBeCloseTo(0.63, 6);
    expect(pumpFlows(PUMP, { ...DUTY, staticM: 84 }).delivered).toBe(0);
  });

  it('follows the affinity laws: flow as speed, head as its square (Affinity Law, reference 3.2)', () => {
    const full = pumpFlows(PUMP, { ...DUTY, staticM: 50 }).delivered;
    const slow = pumpFlows(PUMP, { ...DUTY, staticM: 50 * 0.8333 ** 2, speed: 0.8333 }).delivered;
    expect(slow / full).toBeCloseTo(0.8333, 4);
    expect(shaftW(PUMP, 0.8333, 0.63 * 0.8333) / shaftW(PUMP, 1, 0.63)).toBeCloseTo(0.5787, 3);
  });

  it('loses flow through worn rings, and hardly any power at the shaft (Stepanoff, from memory)', () => {
    const sound = pumpFlows(PUMP, DUTY);
    const worn = pumpFlows(PUMP, { ...DUTY, ringLeak: 0.03 });
    expect(worn.delivered / sound.delivered).toBeLessThan(0.75);
    expect(worn.impeller / sound.impeller).toBeGreaterThan(0.97);
    expect(shaftW(PUMP, 1, worn.impeller) / shaftW(PUMP, 1, sound.impeller)).toBeCloseTo(1, 1);
  });

  it('recirculates all of it where the rings leak more than it can lift', () => {
    const { delivered, impeller } = pumpFlows(PUMP, { ...DUTY, staticM: 80, ringLeak: 0.2 });
    expect(delivered).toBe(0);
    expect(impeller).toBeGreaterThan(0.5);
  });
});

describe('shaftW', () => {
  it('is water power over efficiency: 0.63 L/s at 60 m and 52 % (reference 3.2: rho g Q H)', () => {
    expect(shaftW(PUMP, 1, 0.63)).toBeCloseTo((9.80665 * 0.63 * 60) / 0.52, 6);
  });

  it.each([
    { specificSpeed: 400, ratio: 0.42 },
    { specificSpeed: 1500, ratio: 0.56 },
    { specificSpeed: 9000, ratio: 1.15 },
  ])(
    'at no flow is $ratio of the best at $specificSpeed (Karassik, from memory)',
    ({ specificSpeed, ratio }) => {
      expect(shutOffPowerRatio(specificSpeed)).toBeCloseTo(ratio, 6);
    },
  );

  it('falls with flow for a pump of high specific speed', () => {
    const mixed = { ...PUMP, shutOffPowerRatio: 1.15 };
    expect(shaftW(mixed, 1, 0.2)).toBeGreaterThan(shaftW(mixed, 1, 0.6));
  });
});

describe('runningAmps', () => {
  it('is the plate at rated load: P / (eff V pf)', () => {
    expect(ratedAmps(PUMP)).toBeCloseTo(746 / (0.68 * 230 * 0.8), 6);
    expect(amps(1)).toBeCloseTo(ratedAmps(PUMP), 1);
  });

  it('follows load only weakly below half of it (US DOE fact sheet, from memory)', () => {
    expect(amps(0.5) / amps(1)).toBeGreaterThan(0.55);
    expect(amps(0.5) / amps(1)).toBeLessThan(0.8);
    expect(amps(0.25) / amps(0.5)).toBeGreaterThan(0.75);
  });

  it('rises with fewer volts at full load, as most motors do (NEMA MG 1 12.44, from memory)', () => {
    expect(amps(1, 0.9) / amps(1)).toBeGreaterThan(1.02);
    expect(amps(0.2, 0.9) / amps(0.2)).toBeLessThan(1);
  });

  it('has service-factor amps over the plate, and locked-rotor amps in their ratio', () => {
    expect(serviceAmps(PUMP) / ratedAmps(PUMP)).toBeGreaterThan(1.25);
    expect(lockedRotorAmps(PUMP, 1)).toBeCloseTo(5 * ratedAmps(PUMP), 6);
  });

  it('is a wye of three lines at sqrt(3) fewer amps for the same volts', () => {
    const three = { ...PUMP, phase: 3 as const };
    expect(ratedAmps(PUMP) / ratedAmps(three)).toBeCloseTo(Math.sqrt(3), 6);
  });
});

describe('speedAt', () => {
  it('is 1 at rated load, above it with less, and below it on low volts', () => {
    expect(speedAt(PUMP.motor, 746, 1)).toBeCloseTo(1, 9);
    // No slip: 3600 over 3438 rpm of a motor with 4.5 % slip.
    expect(speedAt(PUMP.motor, 0, 1)).toBeCloseTo(1 / 0.955, 6);
    expect(speedAt(PUMP.motor, 746, 0.8)).toBeLessThan(0.98);
  });
});

describe('stepOverload', () => {
  const secondsToTrip = (ratio: number): number => {
    const overload = { heat: 0, tripped: false };
    let s = 0;
    for (; !overload.tripped && s < 3600; s++) stepOverload(overload, ratio, 1);
    return s;
  };

  it('holds service-factor amps for ever and trips at locked rotor within seconds', () => {
    expect(secondsToTrip(1)).toBe(3600);
    expect(secondsToTrip(1.25)).toBeLessThan(900);
    expect(secondsToTrip(4)).toBeLessThan(20);
  });

  it('lets go once it has cooled', () => {
    const overload = { heat: 1.5, tripped: true };
    let s = 0;
    for (; overload.tripped; s++) stepOverload(overload, 0, 1);
    expect(s).toBeGreaterThan(300);
    expect(s).toBeLessThan(900);
  });
});
