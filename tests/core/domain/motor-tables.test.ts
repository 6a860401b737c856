/** Motor facts against published tables; the source stands beside each. */
import { describe, expect, test } from 'vitest';
import { codeLetter, fullLoadAmps } from '../../../src/core/domain/motor-tables.ts';
import { startsLimit } from '../../../src/core/baseline/motor-starts-limit.ts';
import { wFromHp, wFromKw } from '../../../shared/units/power.ts';

describe('tableAmps', () => {
  // NEC table 430.248 (single-phase), copies that agree.
  test.each([
    [1 / 6, 115, 4.4],
    [1 / 2, 115, 9.8],
    [1 / 2, 230, 4.9],
    [3 / 4, 230, 6.9],
    [1, 230, 8.0],
    [1, 208, 8.8],
    [1.5, 230, 10],
    [2, 200, 13.8],
    [5, 230, 28],
    [10, 230, 50],
  ])('single-phase %d hp at %d V is %d A', (hp, volts, amps) => {
    expect(fullLoadAmps({ motorW: wFromHp(hp), volts, phase: 1 })).toBeCloseTo(amps, 9);
  });

  // NEC table 430.250 (three-phase), copies that agree; the small sizes are the ones that other
  // copies misprint.
  test.each([
    [1 / 2, 230, 2.2],
    [1 / 2, 460, 1.1],
    [1.5, 230, 6.0],
    [3, 230, 9.6],
    [3, 208, 10.6],
    [7.5, 460, 11],
    [10, 230, 28],
  ])('three-phase %d hp at %d V is %d A', (hp, volts, amps) => {
    expect(fullLoadAmps({ motorW: wFromHp(hp), volts, phase: 3 })).toBeCloseTo(amps, 9);
  });

  test('240 V belongs to the column of 220 to 240 V', () => {
    expect(fullLoadAmps({ motorW: wFromHp(1), volts: 240, phase: 1 })).toBeCloseTo(8, 9);
  });

  test('between two rows it goes in proportion: 0.75 kW is just over 1 hp', () => {
    expect(fullLoadAmps({ motorW: wFromKw(0.75), volts: 230, phase: 1 })).toBeCloseTo(8.02, 2);
    expect(fullLoadAmps({ motorW: wFromHp(0.625), volts: 230, phase: 1 })).toBeCloseTo(5.9, 9);
  });

  test.each<[string, number, number, 1 | 3]>([
    ['a solar voltage', 1, 48, 1],
    ['a size over the table', 15, 230, 3],
    ['1/3 hp, which the three-phase table has not', 1 / 3, 230, 3],
    ['3 hp at 115 V three-phase, which has no value', 3, 115, 3],
    ['575 V, which is not in the copies', 1, 575, 3],
  ])('says nothing of %s', (_name, hp, volts, phase) => {
    expect(fullLoadAmps({ motorW: wFromHp(hp), volts, phase })).toBeUndefined();
  });
});

describe('code letters (NEC table 430.7(B); half-open as NEMA has it)', () => {
  test.each([
    [3.14, 'A'],
    [3.15, 'B'],
    [3.549, 'B'],
    [3.55, 'C'],
    [6.3, 'H'],
    [7.099, 'H'],
    [9, 'L'],
    [22.4, 'V'],
    [50, 'V'],
  ])('%d kVA/hp is %s', (kva, letter) => {
    expect(codeLetter(kva)).toBe(letter);
  });

  test('letters follow each other without a gap, and I, O, Q are not used', () => {
    const found = Array.from({ length: 2501 }, (_, i) => codeLetter(i / 100));
    expect([...new Set(found)].join('')).toBe('ABCDEFGHJKLMNPRSTUV');
    expect(codeLetter(-1)).toBeUndefined();
  });
});

describe('startsLimit (WSC tank standard; trade handbooks, from memory)', () => {
  test.each<[string, { motorW?: number; phase?: 1 | 3 }, number]>([
    ['1/2 hp', { motorW: wFromHp(0.5), phase: 1 }, 300],
    ['3/4 hp', { motorW: wFromHp(0.75), phase: 1 }, 300],
    ['0.56 kW, which is 3/4 hp', { motorW: 560, phase: 1 }, 300],
    ['1 hp', { motorW: wFromHp(1), phase: 1 }, 100],
    ['3 hp three-phase', { motorW: wFromHp(3), phase: 3 }, 300],
    ['5 hp', { motorW: wFromHp(5) }, 100],
    ['7.5 hp', { motorW: wFromHp(7.5), phase: 1 }, 50],
    ['10 hp three-phase', { motorW: wFromHp(10), phase: 3 }, 100],
    ['50 hp three-phase', { motorW: wFromHp(50), phase: 3 }, 100],
    ['an unknown motor', {}, 300],
  ])('%s', (_name, motor, perDay) => {
    expect(startsLimit(motor)).toEqual({ perDay, isSizeKnown: motor.motorW !== undefined });
  });
});
