/** Quantities as people write and read them. */
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseNumber } from '../../../shared/quantity/parse-number.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import { parseSwitchPair } from '../../../shared/quantity/parse-switch-pair.ts';
import { toDisplayUnits, formatNumber, formatQuantity } from '../../../shared/quantity/format-quantity.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { DIMENSIONS, UNITS, findUnit } from '../../../shared/quantity/units.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';

describe('parseNumber reads', () => {
  test.each<[string, number | undefined]>([
    ['40', 40],
    ['9.8', 9.8],
    ['.5', 0.5],
    ['-10', -10],
    ['−10', -10],
    ['+3', 3],
    ['5 200', 5200],
    ['5\u202f200', 5200],
    ['5,200', 5200],
    ['1,234,567.5', 1234567.5],
    ['3/4', 0.75],
    ['1-1/2', 1.5],
    ['1 1/2', 1.5],
    ['1½', 1.5],
    ['½', 0.5],
    ['7-1/2', 7.5],
    // What could be two things is nothing.
    ['1,5', undefined],
    ['5,20', undefined],
    ['52 00', undefined],
    ['1/0', undefined],
    ['', undefined],
    ['forty', undefined],
    ['1e3', undefined],
    ['0x10', undefined],
    ['Infinity', undefined],
    ['9'.repeat(400), undefined],
  ])('%j', (text, want) => {
    expect(parseNumber(text)).toBe(want);
  });
});

describe('parseQuantity reads', () => {
  test.each<[string, Dimension, number]>([
    ['40 psi', 'pressure', 275.79],
    ['40psi', 'pressure', 275.79],
    ['40 PSI', 'pressure', 275.79],
    ['280 kPa', 'pressure', 280],
    ['2.8 bar', 'pressure', 280],
    ['9.8A', 'current', 9.8],
    ['9.8 amps', 'current', 9.8],
    ['180 ft', 'length', 54.864],
    ['5 200 ft', 'length', 1584.96],
    ['5,200 ft', 'length', 1584.96],
    ['55 m', 'length', 55],
    ['6 in', 'length', 0.1524],
    ['150 mm', 'length', 0.15],
    ['44 gal', 'volume', 166.558],
    ['170 L', 'volume', 170],
    ['10 gpm', 'flow', 0.6309],
    ['38 L/min', 'flow', 0.6333],
    ['2 m3/h', 'flow', 0.5556],
    ['0.75 hp', 'power', 559.275],
    ['3/4 hp', 'power', 559.275],
    ['1-1/2 hp', 'power', 1118.55],
    ['1 1/2 hp', 'power', 1118.55],
    ['½ hp', 'power', 372.85],
    ['1.1 kW', 'power', 1100],
    ['230 V', 'voltage', 230],
    ['20 min', 'duration', 1200],
    ['68 F', 'temperature', 20],
    ['68°F', 'temperature', 20],
    ['-3 C', 'temperature', -3],
    ['3.2 ohm', 'resistance', 3.2],
    ['3.2 \u03a9', 'resistance', 3.2],
    ['3.2\u2126', 'resistance', 3.2],
    ['47 kohm', 'resistance', 47_000],
    ['47 k\u03a9', 'resistance', 47_000],
    ['500 megohm', 'resistance', 5e8],
    ['500 Megohms', 'resistance', 5e8],
    ['500 M\u03a9', 'resistance', 5e8],
    ['105 uF', 'capacitance', 105],
    ['105 \u00b5F', 'capacitance', 105],
    ['105 \u03bcF', 'capacitance', 105],
    ['105 mfd', 'capacitance', 105],
  ])('%j as %s', (text, dimension, si) => {
    const read = parseQuantity(text, dimension);
    expect(read).toMatchObject({ dimension });
    expect('si' in read && read.si).toBeCloseTo(si, 3);
  });

  test.each<[unknown, Dimension, string]>([
    ['9.8 psi', 'current', 'must be a current in A'],
    ['9.8', 'current', 'must be a current in A'],
    [9.8, 'current', 'must be a current in A'],
    ['40', 'pressure', 'must be a pressure in kPa, psi or bar'],
    ['20 m', 'duration', 'must be a duration in s, min or h'],
    ['180 f', 'length', 'must be a length in m, ft, in or mm'],
    ['psi', 'pressure', 'must be a pressure in kPa, psi or bar'],
    ['4 0 psi', 'pressure', 'must be a pressure in kPa, psi or bar'],
    ['1,5 bar', 'pressure', 'must be a pressure in kPa, psi or bar'],
    // A thousandth of an ohm, or a million? Only capitals tell, and a thousandth is nothing that is
    // measured here.
    ['500 m\u03a9', 'resistance', 'must be a resistance in ohm, kohm or megohm'],
    ['500 mohm', 'resistance', 'must be a resistance in ohm, kohm or megohm'],
    ['105 F', 'capacitance', 'must be a capacitance in uF'],
    [null, 'volume', 'must be a volume in L, gal, m3 or acre-ft'],
    [`${' '.repeat(50)}40 psi`, 'pressure', 'must be a pressure in kPa, psi or bar'],
  ])('and refuses %j as %s', (value, dimension, problem) => {
    expect(parseQuantity(value, dimension)).toEqual({ problem });
  });

  test('any text, without a throw', () => {
    fc.assert(
      fc.property(fc.string(), fc.constantFrom(...DIMENSIONS), (text, dimension) => {
        const read = parseQuantity(text, dimension);
        expect('problem' in read || Number.isFinite(read.si)).toBe(true);
      }),
      { seed: 2, numRuns: 2000 },
    );
  });
});

test('no spelling of a unit stands for two units of one dimension', () => {
  for (const dimension of DIMENSIONS) {
    for (const unit of UNITS[dimension]) expect(findUnit(dimension, unit.name)).toBe(unit);
  }
});

describe('parseSwitchPair', () => {
  test.each([
    ['40/60', 275.79, 413.69],
    ['30-50 psi', 206.84, 344.74],
    ['2.8/4.1 bar', 280, 410],
  ])('reads %j', (text, cutInKpa, cutOutKpa) => {
    const pair = parseSwitchPair(text);
    expect('problem' in pair ? [] : [pair.cutInKpa.toFixed(2), pair.cutOutKpa.toFixed(2)]).toEqual([
      cutInKpa.toFixed(2),
      cutOutKpa.toFixed(2),
    ]);
  });

  test.each([
    ['60/40', 'must have its cut-in above 0 and below its cut-out'],
    ['0/40', 'must have its cut-in above 0 and below its cut-out'],
    ['40', 'must be two pressures, cut-in first (such as "40/60 psi")'],
    ['40/60 gal', 'must be two pressures, cut-in first (such as "40/60 psi")'],
  ])('refuses %j', (text, problem) => {
    expect(parseSwitchPair(text)).toEqual({ problem });
  });
});

describe('printQuantity', () => {
  test.each<[number, Dimension, string, string]>([
    [275.79, 'pressure', '40 psi', '276 kPa'],
    [1584.96, 'length', '5,200 ft', '1,585 m'],
    [166.56, 'volume', '44 gal', '167 L'],
    [0.6309, 'flow', '10 gpm', '37.9 L/min'],
    [559.27, 'power', '3/4 hp', '0.56 kW'],
    [1118.55, 'power', '1-1/2 hp', '1.12 kW'],
    [745.7, 'power', '1 hp', '0.75 kW'],
    [1491.4, 'power', '2 hp', '1.49 kW'],
    [7.9, 'current', '7.9 A', '7.9 A'],
    [230.4, 'voltage', '230 V', '230 V'],
    [-0.2, 'temperature', '32 F', '-0.2 C'],
    [1200, 'duration', '20 min', '20 min'],
  ])('%d %s', (si, dimension, us, metric) => {
    expect([formatQuantity(si, dimension, 'us'), formatQuantity(si, dimension, 'metric')]).toEqual([
      us,
      metric,
    ]);
  });

  test('decimals can be asked for', () => {
    expect(formatQuantity(275.9, 'pressure', 'us', 2)).toBe('40.02 psi');
    expect(toDisplayUnits(275.79, 'pressure', 'us').unit).toBe('psi');
  });

  test.each([
    [-0.04, 1, '0'],
    [1234567.891, 2, '1,234,567.89'],
    [-1200, 0, '-1,200'],
    [100, 0, '100'],
    [10.5, 1, '10.5'],
  ])('printNumber(%d, %d)', (value, decimals, want) => {
    expect(formatNumber(value, decimals)).toBe(want);
  });

  test('what is printed is read back as the same, to the printed decimals', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 5000, noNaN: true }),
        fc.constantFrom(...DIMENSIONS),
        fc.constantFrom<UnitSystem>('us', 'metric'),
        (si, dimension, system) => {
          const read = parseQuantity(formatQuantity(si, dimension, system, 6), dimension);
          const share = 'si' in read ? Math.abs(read.si / si - 1) : 1;
          // A plate size stands for what is within 1 % of it. Six decimals of a minute are 0.01 %
          // of a second at worst.
          expect(share).toBeLessThan(dimension === 'power' ? 0.011 : 0.0001);
        },
      ),
      { seed: 3, numRuns: 1000 },
    );
  });
});
