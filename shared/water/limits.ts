/**
 * Published limits for drinking water in the United States, each with its kind, where it stands,
 * and from when. They bind public systems; for a private well they are yardsticks and nothing more.
 * `verified`: the rule or a copy of it was read. `quoted`: a public page that quotes it was read.
 * `from-memory`: from memory, to be looked up before anybody leans on it; so are all dates marked
 * so. Where no date stands we do not know it.
 */
import type { AnalyteKey } from './analytes.ts';

/**
 * Maximum contaminant level; secondary (taste, colour, stains); treatment technique; action level;
 * disinfectant level; advisory.
 */
export type LimitKind = 'primary' | 'secondary' | 'treatment' | 'action' | 'disinfectant' | 'advisory';
export type Provenance = 'verified' | 'quoted' | 'from-memory';

export interface Limit {
  analyte: AnalyteKey;
  kind: LimitKind;
  /** In the kept unit and form (./water-units.ts); over it is over. */
  max?: number;
  min?: number;
  /** Must not be there at all, in 100 mL. */
  absent?: true;
  citation: string;
  provenance: Provenance;
  /** The first day on which it held, ISO date. */
  effectiveFrom?: { on: string; provenance: Provenance };
  /** The last day on which it held. */
  effectiveUntil?: string;
  note?: string;
}

type LimitFields = Omit<Limit, 'analyte' | 'kind' | 'provenance'> & { provenance?: Provenance };

const dateFromMemory = (on: string): NonNullable<Limit['effectiveFrom']> => ({
  on,
  provenance: 'from-memory',
});
const PHASE_2 = dateFromMemory('1992-07-30');
const PHASE_5 = dateFromMemory('1994-01-17');

function primaryLimit(
  analyte: AnalyteKey,
  max: number,
  citation: string,
  more: Partial<LimitFields> = {},
): Limit {
  return { analyte, kind: 'primary', max, citation, provenance: 'quoted', ...more };
}

function secondaryLimit(analyte: AnalyteKey, max: number, more: Partial<LimitFields> = {}): Limit {
  return { analyte, kind: 'secondary', max, citation: '40 CFR 143.3', provenance: 'verified', ...more };
}

/** What is to become of the rule: EPA's announcement of 2025-05-14. */
function pfasLimit(analyte: AnalyteKey, max: number, note: string): Limit {
  return primaryLimit(analyte, max, '40 CFR 141.61, rule of 2024-04-26', {
    provenance: 'from-memory',
    effectiveFrom: dateFromMemory('2024-06-25'),
    note,
  });
}

const PFAS_TO_BE_WITHDRAWN = 'EPA announced in May 2025 that it means to withdraw this limit.';
const INORGANIC = '40 CFR 141.62(b)';
const SYNTHETIC = '40 CFR 141.61(c)';
const VOLATILE = '40 CFR 141.61(a)';

export const LIMITS: readonly Limit[] = [
  {
    analyte: 'total-coliform',
    kind: 'treatment',
    absent: true,
    citation: '40 CFR 141 subpart Y (Revised Total Coliform Rule, 78 FR 10354)',
    provenance: 'verified',
    effectiveFrom: dateFromMemory('2016-04-01'),
    note: 'The goal is none in 100 mL. In a public system a find makes the whole system be looked over. The older rule of 5 % of samples ended on 2016-03-31.',
  },
  {
    analyte: 'e-coli',
    kind: 'primary',
    absent: true,
    citation: '40 CFR 141.63(c)',
    provenance: 'from-memory',
    effectiveFrom: dateFromMemory('2016-04-01'),
    note: 'The goal is none. In a public system the rule asks for repeat samples.',
  },
  primaryLimit('nitrate', 10, `${INORGANIC}(7)`, { effectiveFrom: PHASE_2 }),
  primaryLimit('nitrite', 1, `${INORGANIC}(8)`, { effectiveFrom: PHASE_2 }),
  primaryLimit('nitrate-nitrite', 10, `${INORGANIC}(9)`, {
    provenance: 'from-memory',
    effectiveFrom: PHASE_2,
  }),
  primaryLimit('arsenic', 0.01, `${INORGANIC}(16)`, {
    effectiveFrom: dateFromMemory('2006-01-23'),
    note: 'Before it was 0.050 mg/L.',
  }),
  primaryLimit('fluoride', 4, `${INORGANIC}(1)`, { effectiveFrom: dateFromMemory('1987-10-02') }),
  secondaryLimit('fluoride', 2, { note: 'For the teeth of children.' }),
  primaryLimit('uranium', 0.03, '40 CFR 141.66(e); 65 FR 76708 of 2000-12-07', {
    effectiveFrom: dateFromMemory('2003-12-08'),
  }),
  primaryLimit('gross-alpha', 15, '40 CFR 141.66(c)', {
    provenance: 'verified',
    note: 'Without radon and uranium.',
  }),
  primaryLimit('radium', 5, '40 CFR 141.66(b)', { provenance: 'verified' }),
  primaryLimit('barium', 2, INORGANIC, { effectiveFrom: dateFromMemory('1993-01-01') }),
  primaryLimit('cadmium', 0.005, INORGANIC, { effectiveFrom: PHASE_2 }),
  primaryLimit('chromium', 0.1, INORGANIC, { effectiveFrom: PHASE_2 }),
  primaryLimit('mercury', 0.002, INORGANIC, { effectiveFrom: PHASE_2 }),
  primaryLimit('selenium', 0.05, INORGANIC, { effectiveFrom: PHASE_2 }),
  primaryLimit('antimony', 0.006, INORGANIC, { effectiveFrom: PHASE_5 }),
  primaryLimit('beryllium', 0.004, INORGANIC, { effectiveFrom: PHASE_5 }),
  primaryLimit('thallium', 0.002, INORGANIC, { effectiveFrom: PHASE_5 }),
  primaryLimit('cyanide', 0.2, INORGANIC, { effectiveFrom: PHASE_5 }),
  {
    analyte: 'lead',
    kind: 'action',
    max: 0.015,
    citation: '40 CFR 141.80',
    provenance: 'verified',
    effectiveFrom: dateFromMemory('1992-12-07'),
    effectiveUntil: '2024-12-29',
    note: 'Public systems still follow it until 2027-10-31.',
  },
  {
    analyte: 'lead',
    kind: 'action',
    max: 0.01,
    citation: '40 CFR 141.80; 89 FR 86418 of 2024-10-30',
    provenance: 'verified',
    effectiveFrom: { on: '2024-12-30', provenance: 'verified' },
    note: 'It was 0.015 mg/L before. The rule took effect on 2024-12-30; public systems must comply by 2027-11-01 and follow 0.015 mg/L until then. No level of lead is safe: the goal is none.',
  },
  {
    analyte: 'copper',
    kind: 'action',
    max: 1.3,
    citation: '40 CFR 141.80',
    provenance: 'quoted',
    effectiveFrom: dateFromMemory('1992-12-07'),
  },
  secondaryLimit('copper', 1),
  primaryLimit('atrazine', 0.003, SYNTHETIC, { effectiveFrom: PHASE_2 }),
  primaryLimit('alachlor', 0.002, SYNTHETIC, { effectiveFrom: PHASE_2 }),
  primaryLimit('simazine', 0.004, SYNTHETIC, { effectiveFrom: PHASE_5 }),
  primaryLimit('2-4-d', 0.07, SYNTHETIC, { effectiveFrom: PHASE_2 }),
  primaryLimit('glyphosate', 0.7, SYNTHETIC, { effectiveFrom: PHASE_5 }),
  primaryLimit('carbofuran', 0.04, SYNTHETIC, { effectiveFrom: PHASE_2 }),
  primaryLimit('benzene', 0.005, VOLATILE, { effectiveFrom: dateFromMemory('1989-01-09') }),
  primaryLimit('trichloroethylene', 0.005, VOLATILE, { effectiveFrom: dateFromMemory('1989-01-09') }),
  primaryLimit('tetrachloroethylene', 0.005, VOLATILE, { effectiveFrom: PHASE_2 }),
  primaryLimit('vinyl-chloride', 0.002, VOLATILE, { effectiveFrom: dateFromMemory('1989-01-09') }),
  primaryLimit('trihalomethanes', 0.08, '40 CFR 141.64'),
  primaryLimit('haloacetic-acids', 0.06, '40 CFR 141.64'),
  { analyte: 'chlorine', kind: 'disinfectant', max: 4, citation: '40 CFR 141.65', provenance: 'quoted' },
  { analyte: 'chloramine', kind: 'disinfectant', max: 4, citation: '40 CFR 141.65', provenance: 'quoted' },
  {
    analyte: 'chlorine-dioxide',
    kind: 'disinfectant',
    max: 0.8,
    citation: '40 CFR 141.65',
    provenance: 'quoted',
  },
  {
    analyte: 'turbidity',
    kind: 'treatment',
    max: 1,
    citation: '40 CFR 141.173 and 141.551',
    provenance: 'from-memory',
    note: 'Made for filtered surface water, never over 1 NTU: for a well it is a hint.',
  },
  secondaryLimit('iron', 0.3),
  secondaryLimit('manganese', 0.05),
  {
    analyte: 'manganese',
    kind: 'advisory',
    max: 0.3,
    citation: 'EPA health advisory of 2004, for a lifetime',
    provenance: 'from-memory',
  },
  secondaryLimit('sulfate', 250),
  secondaryLimit('chloride', 250),
  secondaryLimit('tds', 500),
  { analyte: 'ph', kind: 'secondary', min: 6.5, max: 8.5, citation: '40 CFR 143.3', provenance: 'verified' },
  secondaryLimit('zinc', 5),
  secondaryLimit('silver', 0.1),
  secondaryLimit('aluminium', 0.2, { note: 'The rule gives 0.05 to 0.2 mg/L; this is the upper end.' }),
  secondaryLimit('foaming-agents', 0.5),
  secondaryLimit('colour', 15),
  secondaryLimit('odour', 3),
  {
    analyte: 'sodium',
    kind: 'advisory',
    max: 20,
    citation: 'EPA advisory, for strict low-sodium diets alone',
    provenance: 'from-memory',
  },
  pfasLimit('pfoa', 4e-6, 'Public systems must comply by 2029; EPA means to extend that to 2031.'),
  pfasLimit('pfos', 4e-6, 'Public systems must comply by 2029; EPA means to extend that to 2031.'),
  pfasLimit('pfhxs', 1e-5, PFAS_TO_BE_WITHDRAWN),
  pfasLimit('pfna', 1e-5, PFAS_TO_BE_WITHDRAWN),
  pfasLimit('hfpo-da', 1e-5, PFAS_TO_BE_WITHDRAWN),
];

/** The limits of an analyte that held on a day, ISO date; one without dates holds always. */
export function limitsOn(key: AnalyteKey, on: string): Limit[] {
  return LIMITS.filter(
    ({ analyte, effectiveFrom, effectiveUntil }) =>
      analyte === key &&
      (effectiveFrom === undefined || effectiveFrom.on <= on) &&
      (effectiveUntil === undefined || on <= effectiveUntil),
  );
}
