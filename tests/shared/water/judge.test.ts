import { describe, expect, test } from 'vitest';
import { adviceFor, YEARLY_ANALYTES } from '../../../shared/water/advice.ts';
import type { AnalyteKey } from '../../../shared/water/analytes.ts';
import { compareResult, bacteriaFound, plausibilityQuestion } from '../../../shared/water/compare.ts';
import { LIMITS, limitsOn, limitWords } from '../../../shared/water/limits.ts';
import { readResult, type WaterResult } from '../../../shared/water/result.ts';
import { CAUTIONS, type Caution } from '../../../shared/text/en/cautions.ts';

const TODAY = '2026-11-26';

function read(analyte: string, value: string, unit?: string): WaterResult {
  const one = readResult({ analyte, value, ...(unit === undefined ? {} : { unit }) });
  if ('problem' in one) throw new Error(`${one.problem.key} ${one.problem.rule}`);
  return one.result;
}

function verdicts(analyte: string, value: string, unit?: string, drawnOn = '2026-05-01'): string[] {
  return compareResult(read(analyte, value, unit), { drawnOn, today: TODAY }).map(
    ({ limit, verdict }) => `${limit.kind} ${verdict}`,
  );
}

describe('the limits', () => {
  // Section 5.2 of the reference values: 40 CFR 141 and 143.3 as read or quoted there, each in the
  // unit in which it is printed.
  test.each<[analyte: string, limit: string, unit: string, kind: string]>([
    ['nitrate', '10', 'mg/L as N', 'primary'],
    ['nitrate', '44.27', 'mg/L as NO3', 'primary'],
    ['nitrite', '1', 'mg/L as N', 'primary'],
    ['nitrate-nitrite', '10', 'mg/L as N', 'primary'],
    ['arsenic', '0.010', 'mg/L', 'primary'],
    ['fluoride', '4.0', 'mg/L', 'primary'],
    ['fluoride', '2.0', 'mg/L', 'secondary'],
    ['uranium', '30', 'ug/L', 'primary'],
    ['gross-alpha', '15', 'pCi/L', 'primary'],
    ['radium', '5', 'pCi/L', 'primary'],
    ['barium', '2', 'mg/L', 'primary'],
    ['cadmium', '0.005', 'mg/L', 'primary'],
    ['chromium', '0.1', 'mg/L', 'primary'],
    ['mercury', '0.002', 'mg/L', 'primary'],
    ['selenium', '0.05', 'mg/L', 'primary'],
    ['antimony', '0.006', 'mg/L', 'primary'],
    ['beryllium', '0.004', 'mg/L', 'primary'],
    ['thallium', '0.002', 'mg/L', 'primary'],
    ['cyanide', '0.2', 'mg/L', 'primary'],
    ['lead', '0.010', 'mg/L', 'action'],
    ['copper', '1.3', 'mg/L', 'action'],
    ['copper', '1.0', 'mg/L', 'secondary'],
    ['atrazine', '0.003', 'mg/L', 'primary'],
    ['alachlor', '0.002', 'mg/L', 'primary'],
    ['simazine', '0.004', 'mg/L', 'primary'],
    ['2-4-d', '0.07', 'mg/L', 'primary'],
    ['glyphosate', '0.7', 'mg/L', 'primary'],
    ['carbofuran', '0.04', 'mg/L', 'primary'],
    ['benzene', '0.005', 'mg/L', 'primary'],
    ['trichloroethylene', '0.005', 'mg/L', 'primary'],
    ['tetrachloroethylene', '0.005', 'mg/L', 'primary'],
    ['vinyl-chloride', '0.002', 'mg/L', 'primary'],
    ['trihalomethanes', '0.080', 'mg/L', 'primary'],
    ['haloacetic-acids', '0.060', 'mg/L', 'primary'],
    ['chlorine', '4.0', 'mg/L', 'disinfectant'],
    ['chloramine', '4.0', 'mg/L', 'disinfectant'],
    ['chlorine-dioxide', '0.8', 'mg/L', 'disinfectant'],
    ['turbidity', '1', 'NTU', 'treatment'],
    ['iron', '0.3', 'mg/L', 'secondary'],
    ['manganese', '0.05', 'mg/L', 'secondary'],
    ['manganese', '0.3', 'mg/L', 'advisory'],
    ['sulfate', '250', 'mg/L', 'secondary'],
    ['chloride', '250', 'mg/L', 'secondary'],
    ['tds', '500', 'mg/L', 'secondary'],
    ['ph', '8.5', 'pH', 'secondary'],
    ['zinc', '5', 'mg/L', 'secondary'],
    ['silver', '0.1', 'mg/L', 'secondary'],
    ['aluminium', '0.2', 'mg/L', 'secondary'],
    ['foaming-agents', '0.5', 'mg/L', 'secondary'],
    ['colour', '15', 'color units', 'secondary'],
    ['odour', '3', 'TON', 'secondary'],
    ['sodium', '20', 'mg/L', 'advisory'],
    ['pfoa', '4.0', 'ng/L', 'primary'],
    ['pfos', '4.0', 'ng/L', 'primary'],
  ])('%s at %s %s is at the %s limit, and a fifth more is over', (analyte, limit, unit, kind) => {
    const more = String(Number(limit) * 1.2);
    expect(verdicts(analyte, limit, unit)).toContain(`${kind} at`);
    expect(verdicts(analyte, more, unit)).toContain(`${kind} over`);
    expect(verdicts(analyte, String(Number(limit) * 0.8), unit)).toContain(`${kind} under`);
  });

  test('each says where it stands, and holds of an analyte once at a time for each kind', () => {
    for (const limit of LIMITS) {
      const { analyte } = limit;
      expect(limitWords(limit).citation.length).toBeGreaterThan(8);
      const kinds = limitsOn(analyte, TODAY).map(({ kind }) => kind);
      expect(new Set(kinds).size).toBe(kinds.length);
    }
  });
});

describe('compareResult', () => {
  test.each<[analyte: string, value: string, unit: string | undefined, verdict: string[]]>([
    ['nitrate', '44.3', 'mg/L as NO3', ['primary at']],
    ['nitrate', '44', 'mg/L as NO3', ['primary under']],
    ['nitrate', '45', 'mg/L as NO3', ['primary over']],
    ['nitrate', '46', 'mg/L as NO3', ['primary over']],
    ['nitrate', '45.0', 'mg/L as NO3', ['primary over']],
    ['Nitrate as Nitrogen', '25', 'mg/L', ['primary over']],
    ['Lead (Pb)', '20', 'ug/L', ['action over']],
    ['nitrate', '10.1', 'mg/L as N', ['primary over']],
    // 1 mg/L as N is 3.2845 as NO2, which is printed as 3.28.
    ['nitrite', '3.28', 'mg/L as NO2', ['primary under']],
    ['nitrite', '3.30', 'mg/L as NO2', ['primary at']],
    ['nitrite', '3.32', 'mg/L as NO2', ['primary over']],
    ['ph', '6.4', undefined, ['secondary below-range']],
    ['ph', '6.5', undefined, ['secondary under']],
    ['lead', '< 1', 'ug/L', ['action under']],
    ['lead', '< 20', 'ug/L', ['action cannot-tell']],
    ['lead', 'ND', undefined, ['action none-found']],
    ['total-coliform', 'absent', undefined, ['treatment under']],
    ['total-coliform', 'present', undefined, ['treatment over']],
    ['e-coli', '< 1', 'MPN/100 mL', ['primary under']],
    ['e-coli', '0', 'CFU/100 mL', ['primary under']],
    ['e-coli', '1', 'CFU/100 mL', ['primary over']],
    ['e-coli', '> 200.5', 'MPN/100 mL', ['primary over']],
    ['Lithium', '5', 'ug/L', []],
  ])('%s, %s %s', (analyte, value, unit, expected) => {
    expect(verdicts(analyte, value, unit)).toEqual(expected);
  });

  // 89 FR 86418 of 2024-10-30, effective 2024-12-30: 0.015 -> 0.010 mg/L (reference values, T8).
  test.each<[drawnOn: string, value: string, now: string, then: string | undefined]>([
    ['2023-05-01', '0.012', 'over', 'under'],
    ['2023-05-01', '0.009', 'under', undefined],
    ['2023-05-01', '0.016', 'over', undefined],
    ['2024-12-29', '0.012', 'over', 'under'],
    ['2024-12-30', '0.012', 'over', undefined],
  ])('lead drawn on %s, %s mg/L: %s today, then %s', (drawnOn, value, now, then) => {
    const [one] = compareResult(read('lead', value, 'mg/L'), { drawnOn, today: TODAY });
    expect(one?.verdict).toBe(now);
    expect(one?.limit).toMatchObject({ max: 0.01, effectiveFrom: { on: '2024-12-30' } });
    expect(one?.atSampling?.verdict).toBe(then);
    if (then !== undefined) expect(one?.atSampling?.limit.max).toBe(0.015);
  });
});

describe('adviceOf', () => {
  const advise = (analyte: string, value: string, unit?: string) => {
    const result = read(analyte, value, unit);
    return adviceFor(result, compareResult(result, { drawnOn: '2026-05-01', today: TODAY }));
  };

  test.each([
    ['total-coliform', 'present'],
    ['e-coli', 'present'],
    ['fecal-coliform', 'present'],
  ])('%s %s: not to be drunk, and the health department is to be called', (analyte, value) => {
    const advice = advise(analyte, value);
    expect(bacteriaFound(read(analyte, value))).toBe(true);
    expect(advice?.text).toContain('Do not drink this water, and');
    expect(advice?.text).toContain('After a licensed contractor');
    expect(advice?.text).toContain('Call the health department');
    expect(advice?.cautions).toContain('bacteria-again');
    expect(advice?.retestDays).toBe(14);
  });

  // CDC, "Chemicals that can contaminate tap water": boiling will not remove chemicals. Volatile
  // ones, lead and copper: EPA, CDC, ATSDR, from memory.
  test.each<[analyte: string, value: string, unit: string, cautions: Caution[]]>([
    ['nitrate', '12', 'mg/L as N', ['nitrate']],
    ['nitrite', '1.2', 'mg/L as N', ['nitrate']],
    ['arsenic', '12', 'ug/L', ['chemicals']],
    ['arsenic', '10', 'ug/L', ['chemicals']],
    ['uranium', '40', 'ug/L', ['chemicals']],
    ['fluoride', '4.5', 'mg/L', ['chemicals']],
    ['manganese', '0.4', 'mg/L', ['chemicals']],
    ['pfoa', '8', 'ng/L', ['chemicals']],
    ['atrazine', '4', 'ug/L', ['chemicals']],
    ['lead', '20', 'ug/L', ['chemicals', 'plumbing-metals']],
    ['copper', '1.5', 'mg/L', ['chemicals', 'plumbing-metals']],
    ['benzene', '8', 'ug/L', ['solvents']],
    ['turbidity', '3', 'NTU', []],
    ['chlorine', '5', 'mg/L', []],
    ['iron', '1.2', 'mg/L', []],
  ])('%s %s %s goes with what boiling does to it', (analyte, value, unit, cautions) => {
    expect(advise(analyte, value, unit)?.cautions).toEqual(cautions);
  });

  test('nitrate and chemicals are not to be boiled nor given to infants; lead is drawn cold, and not after standing', () => {
    expect(CAUTIONS.nitrate).toMatch(
      /must not be boiled.*infants, mixed into infant formula, or drunk by pregnant women/u,
    );
    expect(CAUTIONS.chemicals).toMatch(
      /Boiling does not.*lead, arsenic, uranium, fluoride, nitrate or PFAS, and it makes them stronger\. Do not mix infant formula/u,
    );
    expect(CAUTIONS['plumbing-metals']).toMatch(/cold tap alone.*Let it run after it has stood/u);
  });

  test('bacteria leave it to the health department whether boiling is enough, and nothing contradicts it', () => {
    for (const analyte of ['total-coliform', 'e-coli', 'fecal-coliform']) {
      const { text = '', cautions = [] } = advise(analyte, 'present') ?? {};
      expect(text).toContain('whether boiling is enough');
      expect(cautions).toEqual(['disinfecting', 'bacteria-again']);
      for (const caution of cautions) expect(CAUTIONS[caution]).not.toMatch(/boil/iu);
    }
  });

  test.each<
    [
      analyte: string,
      value: string,
      unit: string | undefined,
      says: string | undefined,
      days: number | undefined,
    ]
  >([
    ['nitrate', '5.0', 'mg/L as N', 'twice a year', 182],
    ['nitrate', '4.9', 'mg/L as N', undefined, undefined],
    ['nitrate', '10', 'mg/L as N', 'at a published limit', 30],
    ['nitrate', '> 5', 'mg/L as N', 'Ask the laboratory how much it is', undefined],
    ['fluoride', '2.5', 'mg/L', 'the teeth of children', undefined],
    ['fluoride', '4.5', 'mg/L', 'over a published limit', 30],
    ['sodium', '35', 'mg/L', 'strict low-sodium diets', undefined],
    ['copper', '1.1', 'mg/L', 'secondary limit', undefined],
    ['iron', '1.2', 'mg/L', 'secondary limit', undefined],
    ['arsenic', '12', 'ug/L', 'Ask the health department', 30],
    ['lead', '< 20', 'ug/L', 'as little lead as the limit', undefined],
    ['e-coli', 'absent', undefined, undefined, undefined],
  ])('%s %s %s', (analyte, value, unit, says, days) => {
    const advice = advise(analyte, value, unit);
    if (says === undefined) expect(advice).toBeUndefined();
    else expect(advice?.text).toContain(says);
    expect(advice?.retestDays).toBe(days);
  });

  test('the four of every year are those of the EPA’s page', () => {
    expect(YEARLY_ANALYTES).toEqual<AnalyteKey[]>(['total-coliform', 'nitrate', 'tds', 'ph']);
  });
});

describe('oddOf', () => {
  test('asks whether ug/L was meant where a result is a thousand times what it could be', () => {
    expect(plausibilityQuestion(read('arsenic', '8', 'mg/L'), TODAY)).toContain('ug/L');
    expect(plausibilityQuestion(read('arsenic', '8', 'ug/L'), TODAY)).toBeUndefined();
  });
});
