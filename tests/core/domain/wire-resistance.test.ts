/** Ohms and volts of the wire to a motor, against worked figures. */
import { describe, expect, test } from 'vitest';
import { conductorOhm, loopOhm, voltDrop } from '../../../src/core/domain/wire-resistance.ts';

const FT = 0.3048;
/** 12 AWG is 3.309 mm2, 10 AWG 5.261. */
const DROP = { dropMm2: 3.309, dropLengthM: 1000 * FT };

describe('conductorOhm', () => {
  test('of 1,000 ft of 12 AWG copper at 20 C is 1.588 ohm (wire tables, from memory)', () => {
    expect(conductorOhm(DROP)).toBeCloseTo(1.588, 3);
  });

  test('of 1,000 ft of 12 AWG aluminum is 2.6 ohm (the same tables, from memory)', () => {
    expect(conductorOhm({ ...DROP, dropMaterial: 'aluminum' })).toBeCloseTo(2.6, 2);
  });

  test('adds the buried wire, and is not known where a size or length is missing', () => {
    expect(conductorOhm({ ...DROP, buriedMm2: 5.261, buriedLengthM: 100 * FT })).toBeCloseTo(1.688, 3);
    expect(conductorOhm({ ...DROP, buriedMm2: 5.261 })).toBeUndefined();
    expect(conductorOhm({ splice: 'heat shrink' })).toBeUndefined();
    expect(conductorOhm(undefined)).toBeUndefined();
  });

  test('counts twice for a winding', () => expect(loopOhm(DROP)).toBeCloseTo(3.176, 3));
});

describe('voltDrop', () => {
  test('of 9.8 A through 250 ft of 12 AWG there and back is 7.8 V, 3.4 % of 230 V', () => {
    const wire = { ...DROP, dropLengthM: 250 * FT };
    const drop = voltDrop(wire, { amps: 9.8, volts: 230, phase: 1 });
    expect(drop?.volts).toBeCloseTo(7.78, 2);
    expect(drop?.ratio).toBeCloseTo(0.0338, 4);
  });

  test('of three lines is the root of three times one', () => {
    expect(voltDrop(DROP, { amps: 10, volts: 460, phase: 3 })?.volts).toBeCloseTo(27.5, 1);
  });
});
