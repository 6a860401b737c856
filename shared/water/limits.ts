/**
 * Published limits for drinking water in the United States, each with its kind, where it stands,
 * and from when. They bind public systems; for a private well they are yardsticks and nothing more.
 * `verified`: the rule or a copy of it was read. `quoted`: a public page that quotes it was read.
 * `from-memory`: from memory, to be looked up before anybody leans on it; so are all dates marked
 * so. Where no date stands we do not know it.
 */
import type { LimitCitation, LimitNote } from '../text/en/logbook/water-advice.ts';
import { limitTextsOf } from './advice-texts.ts';
import type { AnalyteKey } from './analytes.ts';

/**
 * Maximum contaminant level; secondary (taste, colour, stains); treatment technique; action level;
 * disinfectant level; advisory.
 */
export type LimitKind = 'primary' | 'secondary' | 'treatment' | 'action' | 'disinfectant' | 'advisory';
export type Provenance = 'verified' | 'quoted' | 'from-memory';

/** Numbers are the same in every language; one with words has them in the catalogue. */
type Citation = `40 CFR ${string}` | LimitCitation;

export interface Limit {
  analyte: AnalyteKey;
  kind: LimitKind;
  /** In the kept unit and form (./water-units.ts); over it is over. */
  max?: number;
  min?: number;
  /** Must not be there at all, in 100 mL. */
  absent?: true;
  citation: Citation;
  provenance: Provenance;
  /** The first day on which it held, ISO date. */
  effectiveFrom?: { on: string; provenance: Provenance };
  /** The last day on which it held. */
  effectiveUntil?: string;
  note?: LimitNote;
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
  citation: Citation,
  more: Partial<LimitFields> = {},
): Limit {
  return { analyte, kind: 'primary', max, citation, provenance: 'quoted', ...more };
}

function secondaryLimit(analyte: AnalyteKey, max: number, more: Partial<LimitFields> = {}): Limit {
  return { analyte, kind: 'secondary', max, citation: '40 CFR 143.3', provenance: 'verified', ...more };
}

/** What is to become of the rule: EPA's announcement of 2025-05-14. */
function pfasLimit(analyte: AnalyteKey, max: number, note: LimitNote): Limit {
  return primaryLimit(analyte, max, 'pfasRule', {
    provenance: 'from-memory',
    effectiveFrom: dateFromMemory('2024-06-25'),
    note,
  });
}

const INORGANIC = '40 CFR 141.62(b)';
const SYNTHETIC = '40 CFR 141.61(c)';
const VOLATILE = '40 CFR 141.61(a)';

export const LIMITS: readonly Limit[] = [
  {
    analyte: 'total-coliform',
    kind: 'treatment',
    absent: true,
    citation: 'coliformRule',
    provenance: 'verified',
    effectiveFrom: dateFromMemory('2016-04-01'),
    note: 'coliform',
  },
  {
    analyte: 'e-coli',
    kind: 'primary',
    absent: true,
    citation: '40 CFR 141.63(c)',
    provenance: 'from-memory',
    effectiveFrom: dateFromMemory('2016-04-01'),
    note: 'eColi',
  },
  primaryLimit('nitrate', 10, `${INORGANIC}(7)`, { effectiveFrom: PHASE_2 }),
  primaryLimit('nitrite', 1, `${INORGANIC}(8)`, { effectiveFrom: PHASE_2 }),
  primaryLimit('nitrate-nitrite', 10, `${INORGANIC}(9)`, {
    provenance: 'from-memory',
    effectiveFrom: PHASE_2,
  }),
  primaryLimit('arsenic', 0.01, `${INORGANIC}(16)`, {
    effectiveFrom: dateFromMemory('2006-01-23'),
    note: 'arsenic',
  }),
  primaryLimit('fluoride', 4, `${INORGANIC}(1)`, { effectiveFrom: dateFromMemory('1987-10-02') }),
  secondaryLimit('fluoride', 2, { note: 'fluoride' }),
  primaryLimit('uranium', 0.03, '40 CFR 141.66(e); 65 FR 76708 of 2000-12-07', {
    effectiveFrom: dateFromMemory('2003-12-08'),
  }),
  primaryLimit('gross-alpha', 15, '40 CFR 141.66(c)', {
    provenance: 'verified',
    note: 'alpha',
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
    note: 'oldLead',
  },
  {
    analyte: 'lead',
    kind: 'action',
    max: 0.01,
    citation: '40 CFR 141.80; 89 FR 86418 of 2024-10-30',
    provenance: 'verified',
    effectiveFrom: { on: '2024-12-30', provenance: 'verified' },
    note: 'lead',
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
    note: 'turbidity',
  },
  secondaryLimit('iron', 0.3),
  secondaryLimit('manganese', 0.05),
  {
    analyte: 'manganese',
    kind: 'advisory',
    max: 0.3,
    citation: 'manganeseAdvisory',
    provenance: 'from-memory',
  },
  secondaryLimit('sulfate', 250),
  secondaryLimit('chloride', 250),
  secondaryLimit('tds', 500),
  { analyte: 'ph', kind: 'secondary', min: 6.5, max: 8.5, citation: '40 CFR 143.3', provenance: 'verified' },
  secondaryLimit('zinc', 5),
  secondaryLimit('silver', 0.1),
  secondaryLimit('aluminium', 0.2, { note: 'aluminum' }),
  secondaryLimit('foaming-agents', 0.5),
  secondaryLimit('colour', 15),
  secondaryLimit('odour', 3),
  {
    analyte: 'sodium',
    kind: 'advisory',
    max: 20,
    citation: 'sodiumAdvisory',
    provenance: 'from-memory',
  },
  pfasLimit('pfoa', 4e-6, 'pfasLater'),
  pfasLimit('pfos', 4e-6, 'pfasLater'),
  pfasLimit('pfhxs', 1e-5, 'pfasWithdrawn'),
  pfasLimit('pfna', 1e-5, 'pfasWithdrawn'),
  pfasLimit('hfpo-da', 1e-5, 'pfasWithdrawn'),
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

/** Where the limit stands and what is noted of it, in words. */
export function limitWords({ citation, note }: Limit): { citation: string; note?: string } {
  const { citations, notes } = limitTextsOf();
  return {
    citation: isNumbered(citation) ? citation : citations[citation],
    ...(note !== undefined && { note: notes[note] }),
  };
}

function isNumbered(citation: Citation): citation is `40 CFR ${string}` {
  return citation.startsWith('40 CFR ');
}
