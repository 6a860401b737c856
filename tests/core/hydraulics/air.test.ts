import { describe, expect, test } from 'vitest';
import {
  airVolumeOf,
  advanceAir,
  newAirState,
  warmthAfter,
  ADIABATIC_EXPONENT,
} from '../../../src/core/hydraulics/air.ts';

/** Room of the air after a straight climb of pressure, against its room before. */
function squeezed(coolingS: number, seconds: number, stepS: number, warmRatio = 1): number {
  const air = newAirState(0, 370);
  const before = airVolumeOf(air, 370);
  let absolute = 370;
  for (let s = stepS; s <= seconds + 1e-9; s += stepS) {
    absolute = 370 + (150 * s) / seconds;
    advanceAir(air, s * 1000, absolute, { coolingS, warmRatio });
  }
  return airVolumeOf(air, absolute) / before;
}

describe('airStep', () => {
  // Textbook: P V^n is constant, n 1.4 without loss of heat and 1 with all of it.
  test('follows the adiabatic where no heat is lost in time', () => {
    expect(squeezed(1e7, 60, 1)).toBeCloseTo((370 / 520) ** (1 / 1.4), 4);
  });
  test('follows Boyle where all heat is lost', () => {
    expect(squeezed(0, 60, 1)).toBeCloseTo(370 / 520, 6);
    expect(squeezed(0.5, 60, 1)).toBeCloseTo(370 / 520, 2);
  });
  test('takes a share of the warmth where wall and water keep theirs', () => {
    // (1 + w) / (1 + w for all of it) with w = share x 0.4 / 1.4 x ln(520 / 370).
    const share = squeezed(1e7, 60, 1, 0.5);
    expect(Math.log(share / squeezed(0, 60, 1))).toBeCloseTo((0.5 * 0.4 * Math.log(520 / 370)) / 1.4, 4);
  });
  test('lies between the two in a fill of a minute', () => {
    const room = squeezed(35, 60, 1);
    expect(room).toBeGreaterThan(370 / 520);
    expect(room).toBeLessThan((370 / 520) ** (1 / 1.4));
  });
  test('hardly depends on how often pressure is read', () => {
    expect(squeezed(35, 60, 10)).toBeCloseTo(squeezed(35, 60, 0.1), 3);
  });
});

describe('warmthAfter', () => {
  test('joins its short and its long form', () => {
    const short = warmthAfter(0.05, 4.89, 0.01, 35);
    const long = warmthAfter(0.05, 4.91, 0.01, 35);
    expect(Math.abs(short - long)).toBeLessThan(5e-5);
  });
  test('takes gamma from air: 0.4 / 1.4 of a sudden rise', () => {
    expect(warmthAfter(0, 0, 0.1, 35)).toBeCloseTo(ADIABATIC_EXPONENT * 0.1, 9);
  });
  test('cools at constant room with the time constant itself', () => {
    // At constant room ln P falls with the warmth, so the falling pressure is fed back.
    let warmth = 0.04;
    for (let s = 0; s < 350; s++) warmth = warmthAfter(warmth, 0.1, -warmth * (1 - Math.exp(-0.1 / 35)), 35);
    expect(warmth / 0.04).toBeCloseTo(Math.exp(-1), 2);
  });
});
