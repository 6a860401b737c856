import { describe, expect, test } from 'vitest';
import { findAnalyte } from '../../../shared/water/analytes.ts';
import { hardnessClass } from '../../../shared/water/hardness.ts';
import { readResult } from '../../../shared/water/result.ts';
import { offeredUnits } from '../../../shared/water/water-units.ts';

type Row = [
  analyte: string,
  value: string,
  unit: string | undefined,
  is: string,
  kept: number | undefined,
  keptUnit: string,
];

describe('readResult', () => {
  // Factors: SI prefixes; molar masses of N, NO3 and NO2; the grain of 64.79891 mg and the gallon
  // of 3.785411784 L, both exact.
  test.each<Row>([
    ['Nitrate', '10', 'mg/L as N', 'value', 10, 'mg/L as N'],
    ['Nitrate', '44.268', 'mg/L as NO3', 'value', 10, 'mg/L as N'],
    ['Nitrate-N', '3.2', 'mg/L', 'value', 3.2, 'mg/L as N'],
    ['NO3-N', '3.2', 'ppm', 'value', 3.2, 'mg/L as N'],
    ['Nitrate as NO3', '44.268', 'mg/L', 'value', 10, 'mg/L as N'],
    ['Nitrate (as N)', '3.2 mg/L', undefined, 'value', 3.2, 'mg/L as N'],
    ['Nitrate', '3200', 'µg/L NO3-N', 'value', 3.2, 'mg/L as N'],
    ['Nitrite', '3.2845', 'mg/L as NO2', 'value', 1, 'mg/L as N'],
    ['Arsenic', '10', 'ug/L', 'value', 0.01, 'mg/L'],
    ['Arsenic', '10', 'μg/L', 'value', 0.01, 'mg/L'],
    ['arsenic', '10', 'ppb', 'value', 0.01, 'mg/L'],
    ['PFOA', '4.0', 'ng/L', 'value', 4e-6, 'mg/L'],
    ['PFOS', '4.0', 'ppt', 'value', 4e-6, 'mg/L'],
    ['Lead', '< 0.5', 'ug/L', 'below', 0.0005, 'mg/L'],
    ['Lead', 'ND', 'ug/L', 'below', undefined, 'mg/L'],
    ['Lead', 'ND (0.5)', 'ug/L', 'below', 0.0005, 'mg/L'],
    ['Lead', 'ND (<0.5)', 'ug/L', 'below', 0.0005, 'mg/L'],
    ['Lead', 'ND < 0.5', 'ug/L', 'below', 0.0005, 'mg/L'],
    ['Hardness', '10', 'grains per gallon', 'value', 171.18061, 'mg/L as CaCO3'],
    ['Total hardness', '7', 'gpg', 'value', 119.826427, 'mg/L as CaCO3'],
    ['Hardness', '250', 'mg/L as CaCO3', 'value', 250, 'mg/L as CaCO3'],
    ['Total coliform', 'Absent', undefined, 'absent', undefined, 'per 100 mL'],
    ['E. coli', 'POSITIVE', undefined, 'present', undefined, 'per 100 mL'],
    ['E.coli', '< 1', 'MPN/100 mL', 'below', 1, 'per 100 mL'],
    ['Escherichia coli', '> 200.5', 'MPN/100mL', 'above', 200.5, 'per 100 mL'],
    ['Total coliforms', 'TNTC', undefined, 'above', undefined, 'per 100 mL'],
    ['pH', '7.4', undefined, 'value', 7.4, ''],
    ['pH', '7.4', 'S.U.', 'value', 7.4, ''],
    ['Radon', '37', 'Bq/L', 'value', 1000, 'pCi/L'],
    ['Conductivity', '0.52', 'mS/cm', 'value', 520, 'uS/cm'],
    ['TDS', '1,250', 'mg/L', 'value', 1250, 'mg/L'],
    ['Cobalt', '< 5', 'ug/L', 'below', 5, 'ug/L'],
  ])('%s, %s %s', (analyte, value, unit, is, kept, keptUnit) => {
    const read = readResult({ analyte, value, ...(unit === undefined ? {} : { unit }) });
    if ('problem' in read) throw new Error(`${read.problem.key} ${read.problem.rule}`);
    expect(read.result.is).toBe(is);
    expect(read.result.unit).toBe(keptUnit);
    if (kept === undefined) expect(read.result.value).toBeUndefined();
    else expect(read.result.value! / kept).toBeCloseTo(1, 4);
  });

  test.each<[analyte: string, value: string, unit: string | undefined, key: string, says: string]>([
    ['Nitrate', '12', 'mg/L', 'unit', 'must say as what, as N or as NO3'],
    ['NO3', '12', 'mg/L', 'unit', 'must say as what'],
    ['Nitrate-N', '12', 'mg/L as NO3', 'unit', 'the name says as N and the unit as NO3'],
    ['Nitrate', '12', 'NTU', 'unit', 'must be mg/L'],
    ['Nitrate', '12', undefined, 'unit', 'must say as what'],
    ['Iron', '12', undefined, 'unit', 'must be given'],
    ['Arsenic', '5 ug/L', 'mg/L', 'unit', 'must be said once'],
    ['Arsenic', '5', 'mg/L ug/L', 'unit', 'must be mg/L'],
    ['Arsenic', '5', 'mg', 'unit', 'must be mg/L'],
    ['Arsenic', '5', 'mg/L as N', 'unit', 'must not be as N'],
    ['Uranium', '20', 'pCi/L', 'unit', 'must be mg/L'],
    ['Arsenic', '-5', 'ug/L', 'value', 'must be a number'],
    ['Arsenic', '1,5', 'ug/L', 'value', 'must be a number'],
    ['Arsenic', 'present', undefined, 'value', 'are for bacteria'],
    ['Arsenic', 'a bit', 'ug/L', 'value', 'must be a number'],
    ['Arsenic', ' ', 'ug/L', 'value', 'must be given'],
    ['Sodium', '2000000', 'mg/L', 'value', 'than the water itself weighs'],
    ['pH', '74', undefined, 'value', '0 to 14'],
    ['E. coli', '3', 'CFU/mL', 'unit', 'must be per 100 mL'],
    ['', '3', 'mg/L', 'analyte', 'must be a name'],
  ])('%s, %s %s is refused at its %s', (analyte, value, unit, key, says) => {
    const read = readResult({ analyte, value, ...(unit === undefined ? {} : { unit }) });
    if (!('problem' in read)) throw new Error(`it was read as ${JSON.stringify(read.result)}`);
    expect(read.problem.key).toBe(key);
    expect(read.problem.rule).toContain(says);
  });

  test('says when ppm was taken as mg/L, and keeps how many figures the report gave', () => {
    const read = readResult({ analyte: 'Iron', value: '0.30', unit: 'ppm' });
    expect(read).toMatchObject({
      result: { value: 0.3, significantFigures: 2, remark: expect.stringContaining('mg/L') },
    });
  });
});

describe('analyteNamed', () => {
  test.each([
    ['2,4-D', '2-4-d'],
    ['Aluminum', 'aluminium'],
    ['  total   Coliform ', 'total-coliform'],
    ['fecal coliform', 'fecal-coliform'],
    ['NO2-N', 'nitrite'],
    ['Nitrate + Nitrite', 'nitrate-nitrite'],
    ['Lead (Pb)', 'lead'],
    ['Lead, Total', 'lead'],
    ['Total Lead', 'lead'],
    ['Coliform, total', 'total-coliform'],
    ['Total Coliform (P/A)', 'total-coliform'],
    ['Escherichia coli (E. coli)', 'e-coli'],
    ['Hardness, Total (as CaCO3)', 'hardness'],
    ['Nitrate (NO3)', 'nitrate'],
  ])('%s', (text, key) => expect(findAnalyte(text)?.key).toBe(key));

  test.each([
    ['Nitrate as Nitrogen', 'nitrate', 'N'],
    ['Nitrate-Nitrogen', 'nitrate', 'N'],
    ['Nitrate-Nitrogen (NO3-N)', 'nitrate', 'N'],
    ['Nitrate (NO3-N)', 'nitrate', 'N'],
    ['Nitrogen, Nitrate', 'nitrate', 'N'],
    ['Nitrogen, Nitrate + Nitrite', 'nitrate-nitrite', 'N'],
    ['Nitrate + Nitrite as N', 'nitrate-nitrite', 'N'],
    ['Nitrite as Nitrogen', 'nitrite', 'N'],
    ['Nitrate as NO3', 'nitrate', 'NO3'],
    // Of what, and not as what: the report must say it at the unit.
    ['Nitrate (NO3)', 'nitrate', undefined],
    ['Nitrate, total', 'nitrate', undefined],
  ])('%s says as what', (text, key, form) => {
    expect(findAnalyte(text)).toMatchObject({ key });
    expect(findAnalyte(text)?.form).toBe(form);
  });

  test('says nothing of what it does not know', () => expect(findAnalyte('Cobalt')).toBeUndefined());
});

describe('unitsOffered', () => {
  test('offers nitrate with its form, and grains for hardness alone', () => {
    expect(offeredUnits('nitrate').slice(0, 2)).toEqual(['mg/L as N', 'ug/L as N']);
    expect(offeredUnits('nitrate')).toContain('mg/L as NO3');
    expect(offeredUnits('hardness')).toContain('grains per gallon');
    expect(offeredUnits('iron')).not.toContain('grains per gallon');
  });

  test.each(['nitrate', 'hardness', 'e-coli', 'ph', 'colour', 'radon', 'conductivity'] as const)(
    'every unit offered for %s is read',
    (key) => {
      for (const unit of offeredUnits(key))
        expect(readResult({ analyte: key, value: '5', unit })).toHaveProperty('result');
    },
  );
});

describe('hardnessClass', () => {
  // Classes of the USGS as quoted in a public table (reference values, 5.3): 0-60, 61-120, 121-180,
  // over 180.
  test.each([
    [0, 'soft'],
    [60, 'soft'],
    [60.4, 'soft'],
    [61, 'moderately hard'],
    [120, 'moderately hard'],
    [121, 'hard'],
    [180, 'hard'],
    [180.6, 'very hard'],
    [600, 'very hard'],
  ])('%d mg/L is %s', (mgPerL, word) => expect(hardnessClass(mgPerL)).toBe(word));

  // 1 gpg = 17.1 mg/L; 3.5 gpg = 60, 7 = 120, 10.5 = 180 (the same table).
  test.each([
    ['3.5', 'soft'],
    ['7', 'moderately hard'],
    ['10.5', 'hard'],
    ['11', 'very hard'],
  ])('%s grains per gallon is %s', (value, word) => {
    const read = readResult({ analyte: 'hardness', value, unit: 'gpg' });
    if (!('result' in read)) throw new Error('it was not read');
    expect(hardnessClass(read.result.value!)).toBe(word);
  });
});
