/** Limits elsewhere and steps for livestock. */
import { describe, expect, test } from 'vitest';
import { bacteriaFound, compareElsewhere } from '../../../shared/water/compare.ts';
import { ELSEWHERE_LIMITS } from '../../../shared/water/elsewhere-limits.ts';
import { readResult, type WaterResult } from '../../../shared/water/result.ts';
import { stockStep } from '../../../shared/water/stock-levels.ts';
import { elsewhereText, stockText } from '../../../shared/text/en/water-elsewhere.ts';

function read(analyte: string, value: string, unit?: string): WaterResult {
  const one = readResult({ analyte, value, ...(unit === undefined ? {} : { unit }) });
  if ('problem' in one) throw new Error(`${one.problem.key} ${one.problem.rule}`);
  return one.result;
}

describe('compareElsewhere', () => {
  // WHO as quoted in the review of this project: Mn 0.08, U 0.03, F 1.5, NO3 50, Pb 0.01 mg/L. The
  // EU's figures are from memory.
  test.each<[string, string, string, string]>([
    ['Manganese', '0.09', 'mg/L', 'who over, eu over'],
    ['Uranium', '30', 'ug/L', 'who at, eu at'],
    ['Fluoride', '1.6', 'mg/L', 'who over, eu over'],
    ['Nitrate', '50', 'mg/L as NO3', 'who at, eu at'],
    ['Nitrate', '11', 'mg/L as N', 'who under, eu under'],
    ['Lead', '11', 'ug/L', 'who over, eu over'],
    ['Iron', '0.25', 'mg/L', 'eu over'],
    ['Enterococci', '2', 'per 100 mL', 'eu over'],
    ['E. coli', 'absent', '', 'who under, eu under'],
    ['pH', '6.2', '', 'eu below-range'],
    ['Hardness', '250', 'mg/L as CaCO3', ''],
  ])('%s %s %s: %s', (analyte, value, unit, verdicts) => {
    const compared = compareElsewhere(read(analyte, value, unit === '' ? undefined : unit));
    expect(compared.map(({ limit, verdict }) => `${limit.from} ${verdict}`).join(', ')).toBe(verdicts);
  });

  test('says what is not for health, what is to come and what is from memory', () => {
    const [, lead] = compareElsewhere(read('Lead', '4', 'ug/L'));
    expect(elsewhereText(lead!, 'mg/L')).toBe(
      '0.01 mg/L: not over it (0.005 mg/L from 2036-01-12; from memory).',
    );
    const [iron] = compareElsewhere(read('Iron', '0.25', 'mg/L'));
    expect(elsewhereText(iron!, 'mg/L')).toBe('0.2 mg/L: over it (not for health; from memory).');
  });

  test('names every pair of analyte and source once', () => {
    const pairs = ELSEWHERE_LIMITS.map(({ analyte, from }) => `${analyte} ${from}`);
    expect(new Set(pairs).size).toBe(pairs.length);
  });
});

describe('stockStep', () => {
  // NDSU AS1764 and MSU MT202209AG, figures from memory.
  test.each<[string, string, string, string | undefined]>([
    ['Nitrate', '10', 'mg/L as N', undefined],
    ['Nitrate', '12', 'mg/L as N', 'watch'],
    ['Nitrate', '200', 'mg/L as NO3', 'risk'],
    ['Nitrate', '120', 'mg/L as N', 'unfit'],
    ['Sulfate', '450', 'mg/L', undefined],
    ['Sulfate', '1200', 'mg/L', 'risk'],
    ['Sulfate', '> 3000', 'mg/L', 'unfit'],
    ['Sulfate', '< 600', 'mg/L', undefined],
    ['TDS', '3,500', 'mg/L', 'watch'],
    ['TDS', '12,000', 'mg/L', 'unfit'],
    ['Iron', '9', 'mg/L', undefined],
  ])('of %s %s %s: %s', (analyte, value, unit, step) => {
    expect(stockStep(read(analyte, value, unit))).toBe(step);
  });

  test('sends to whoever knows the herd', () =>
    expect(stockText('Sulfate', 'risk')).toMatch(
      /^For livestock: Sulfate is high enough to harm.*veterinarian/,
    ));
});

test('iron bacteria and a plate count tell of no way in; enterococci do', () => {
  expect(bacteriaFound(read('Iron bacteria', 'present'))).toBe(false);
  expect(bacteriaFound(read('HPC', '300', 'CFU/mL'))).toBe(false);
  expect(read('HPC', '3', 'CFU/mL').value).toBe(3);
  expect(bacteriaFound(read('Enterococci', '1', 'per 100 mL'))).toBe(true);
});
