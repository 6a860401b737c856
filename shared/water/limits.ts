/**
 * Published limits for drinking water in the United States, each with its kind, where it stands, and from when. They bind public
 * systems; for a private well they are yardsticks and nothing more. `read`: the rule or a copy of it was read. `quoted`: a public page
 * that quotes it was read. `memory`: from memory, to be looked up before anybody leans on it; so are all dates marked so.
 * Where no date stands we do not know it.
 */
import type { AnalyteKey } from './analytes.ts';

/** Maximum contaminant level; secondary (taste, colour, stains); treatment technique; action level; disinfectant level; advisory. */
export type LimitKind = 'primary' | 'secondary' | 'treatment' | 'action' | 'disinfectant' | 'advisory';
export type Known = 'read' | 'quoted' | 'memory';

export interface Limit {
  analyte: AnalyteKey;
  kind: LimitKind;
  /** In the kept unit and form (./water-units.ts); over it is over. */
  most?: number;
  least?: number;
  /** Must not be there at all, in 100 mL. */
  absent?: true;
  where: string;
  known: Known;
  /** The first day on which it held, ISO date. */
  from?: { on: string; known: Known };
  /** The last day on which it held. */
  until?: string;
  note?: string;
}

type Row = Omit<Limit, 'analyte' | 'kind' | 'known'> & { known?: Known };

const memory = (on: string): NonNullable<Limit['from']> => ({ on, known: 'memory' });
const PHASE_2 = memory('1992-07-30');
const PHASE_5 = memory('1994-01-17');

function primary(analyte: AnalyteKey, most: number, where: string, more: Partial<Row> = {}): Limit {
  return { analyte, kind: 'primary', most, where, known: 'quoted', ...more };
}

function secondary(analyte: AnalyteKey, most: number, more: Partial<Row> = {}): Limit {
  return { analyte, kind: 'secondary', most, where: '40 CFR 143.3', known: 'read', ...more };
}

const INORGANIC = '40 CFR 141.62(b)';
const SYNTHETIC = '40 CFR 141.61(c)';
const VOLATILE = '40 CFR 141.61(a)';

export const LIMITS: readonly Limit[] = [
  {
    analyte: 'total-coliform',
    kind: 'treatment',
    absent: true,
    where: '40 CFR 141 subpart Y (Revised Total Coliform Rule, 78 FR 10354)',
    known: 'read',
    from: memory('2016-04-01'),
    note: 'The goal is none in 100 mL. In a public system a find makes the whole system be looked over. The older rule of 5 % of samples ended on 2016-03-31.',
  },
  {
    analyte: 'e-coli',
    kind: 'primary',
    absent: true,
    where: '40 CFR 141.63(c)',
    known: 'memory',
    from: memory('2016-04-01'),
    note: 'The goal is none. In a public system the rule asks for repeat samples.',
  },
  primary('nitrate', 10, `${INORGANIC}(7)`, { from: PHASE_2 }),
  primary('nitrite', 1, `${INORGANIC}(8)`, { from: PHASE_2 }),
  primary('nitrate-nitrite', 10, `${INORGANIC}(9)`, { known: 'memory', from: PHASE_2 }),
  primary('arsenic', 0.01, `${INORGANIC}(16)`, {
    from: memory('2006-01-23'),
    note: 'Before it was 0.050 mg/L.',
  }),
  primary('fluoride', 4, `${INORGANIC}(1)`, { from: memory('1987-10-02') }),
  secondary('fluoride', 2, { note: 'For the teeth of children.' }),
  primary('uranium', 0.03, '40 CFR 141.66(e); 65 FR 76708 of 2000-12-07', { from: memory('2003-12-08') }),
  primary('gross-alpha', 15, '40 CFR 141.66(c)', { known: 'read', note: 'Without radon and uranium.' }),
  primary('radium', 5, '40 CFR 141.66(b)', { known: 'read' }),
  primary('barium', 2, INORGANIC, { from: memory('1993-01-01') }),
  primary('cadmium', 0.005, INORGANIC, { from: PHASE_2 }),
  primary('chromium', 0.1, INORGANIC, { from: PHASE_2 }),
  primary('mercury', 0.002, INORGANIC, { from: PHASE_2 }),
  primary('selenium', 0.05, INORGANIC, { from: PHASE_2 }),
  primary('antimony', 0.006, INORGANIC, { from: PHASE_5 }),
  primary('beryllium', 0.004, INORGANIC, { from: PHASE_5 }),
  primary('thallium', 0.002, INORGANIC, { from: PHASE_5 }),
  primary('cyanide', 0.2, INORGANIC, { from: PHASE_5 }),
  {
    analyte: 'lead',
    kind: 'action',
    most: 0.015,
    where: '40 CFR 141.80',
    known: 'read',
    from: memory('1992-12-07'),
    until: '2024-12-29',
  },
  {
    analyte: 'lead',
    kind: 'action',
    most: 0.01,
    where: '40 CFR 141.80; 89 FR 86418 of 2024-10-30',
    known: 'read',
    from: { on: '2024-12-30', known: 'read' },
    note: 'It was 0.015 mg/L before. The rule of 2024-10-30 took effect on 2024-12-30; the date by which systems must comply is printed as 2027-11-01. The goal is none.',
  },
  {
    analyte: 'copper',
    kind: 'action',
    most: 1.3,
    where: '40 CFR 141.80',
    known: 'quoted',
    from: memory('1992-12-07'),
  },
  secondary('copper', 1),
  primary('atrazine', 0.003, SYNTHETIC, { from: PHASE_2 }),
  primary('alachlor', 0.002, SYNTHETIC, { from: PHASE_2 }),
  primary('simazine', 0.004, SYNTHETIC, { from: PHASE_5 }),
  primary('2-4-d', 0.07, SYNTHETIC, { from: PHASE_2 }),
  primary('glyphosate', 0.7, SYNTHETIC, { from: PHASE_5 }),
  primary('carbofuran', 0.04, SYNTHETIC, { from: PHASE_2 }),
  primary('benzene', 0.005, VOLATILE, { from: memory('1989-01-09') }),
  primary('trichloroethylene', 0.005, VOLATILE, { from: memory('1989-01-09') }),
  primary('tetrachloroethylene', 0.005, VOLATILE, { from: PHASE_2 }),
  primary('vinyl-chloride', 0.002, VOLATILE, { from: memory('1989-01-09') }),
  primary('trihalomethanes', 0.08, '40 CFR 141.64'),
  primary('haloacetic-acids', 0.06, '40 CFR 141.64'),
  { analyte: 'chlorine', kind: 'disinfectant', most: 4, where: '40 CFR 141.65', known: 'quoted' },
  { analyte: 'chloramine', kind: 'disinfectant', most: 4, where: '40 CFR 141.65', known: 'quoted' },
  { analyte: 'chlorine-dioxide', kind: 'disinfectant', most: 0.8, where: '40 CFR 141.65', known: 'quoted' },
  {
    analyte: 'turbidity',
    kind: 'treatment',
    most: 1,
    where: '40 CFR 141.173 and 141.551',
    known: 'memory',
    note: 'Made for filtered surface water, never over 1 NTU: for a well it is a hint.',
  },
  secondary('iron', 0.3),
  secondary('manganese', 0.05),
  {
    analyte: 'manganese',
    kind: 'advisory',
    most: 0.3,
    where: 'EPA health advisory of 2004, for a lifetime',
    known: 'memory',
  },
  secondary('sulfate', 250),
  secondary('chloride', 250),
  secondary('tds', 500),
  { analyte: 'ph', kind: 'secondary', least: 6.5, most: 8.5, where: '40 CFR 143.3', known: 'read' },
  secondary('zinc', 5),
  secondary('silver', 0.1),
  secondary('aluminium', 0.2, { note: 'The rule gives 0.05 to 0.2 mg/L; this is the upper end.' }),
  secondary('foaming-agents', 0.5),
  secondary('colour', 15),
  secondary('odour', 3),
  {
    analyte: 'sodium',
    kind: 'advisory',
    most: 20,
    where: 'EPA advisory, for strict low-sodium diets alone',
    known: 'memory',
  },
  primary('pfoa', 4e-6, '40 CFR 141.61, rule of April 2024', {
    known: 'memory',
    note: 'Its dates have been under revision since 2025.',
  }),
  primary('pfos', 4e-6, '40 CFR 141.61, rule of April 2024', {
    known: 'memory',
    note: 'Its dates have been under revision since 2025.',
  }),
];

/** The limits of an analyte that held on a day, ISO date; one without dates holds always. */
export function limitsOn(key: AnalyteKey, on: string): Limit[] {
  return LIMITS.filter(
    ({ analyte, from, until }) =>
      analyte === key && (from === undefined || from.on <= on) && (until === undefined || on <= until),
  );
}
