/**
 * Limits for drinking water that others than the United States publish: the World Health
 * Organization's guideline values and the European Union's directive. They are shown beside a
 * result and give no advice: for a well in the United States the first column rules. WHO:
 * Guidelines for drinking-water quality, 4th edition with its second addendum; figures marked
 * `quoted` were read on a page that quotes them. EU: Directive (EU) 2020/2184, all from memory.
 */
import type { AnalyteKey } from './analytes.ts';
import type { Provenance } from './limits.ts';

export type ElsewhereSource = 'who' | 'eu';

export interface ElsewhereLimit {
  analyte: AnalyteKey;
  from: ElsewhereSource;
  /** In the kept unit and form (./water-units.ts). */
  max?: number;
  min?: number;
  absent?: true;
  provenance: Provenance;
  /** Something other than health, as taste or a sign that something changed. */
  indicator?: true;
  /** A stricter one is to come. */
  later?: { max: number; on: string };
}

type Figures = [analyte: AnalyteKey, max: number, more?: Partial<ElsewhereLimit>];

/** 50 mg/L as NO3 and 3 or 0.5 mg/L as NO2, to the figures of a report. */
const NITRATE_50_AS_N = 11.3;
const NITRITE_3_AS_N = 0.913;
const NITRITE_HALF_AS_N = 0.152;

const WHO: readonly Figures[] = [
  ['manganese', 0.08, { provenance: 'quoted' }],
  ['uranium', 0.03, { provenance: 'quoted' }],
  ['fluoride', 1.5, { provenance: 'quoted' }],
  ['nitrate', NITRATE_50_AS_N, { provenance: 'quoted' }],
  ['lead', 0.01, { provenance: 'quoted' }],
  ['nitrite', NITRITE_3_AS_N],
  ['arsenic', 0.01],
  ['barium', 1.3],
  ['boron', 2.4],
  ['cadmium', 0.003],
  ['chromium', 0.05],
  ['copper', 2],
  ['mercury', 0.006],
  ['nickel', 0.07],
  ['selenium', 0.04],
  ['antimony', 0.02],
  ['1-4-dioxane', 0.05],
];

const LATER = '2036-01-12';
const EU: readonly Figures[] = [
  ['nitrate', NITRATE_50_AS_N],
  ['nitrite', NITRITE_HALF_AS_N],
  ['arsenic', 0.01],
  ['lead', 0.01, { later: { max: 0.005, on: LATER } }],
  ['chromium', 0.05, { later: { max: 0.025, on: LATER } }],
  ['cadmium', 0.005],
  ['nickel', 0.02],
  ['mercury', 0.001],
  ['selenium', 0.02],
  ['antimony', 0.01],
  ['boron', 1.5],
  ['uranium', 0.03],
  ['fluoride', 1.5],
  ['copper', 2],
  ['benzene', 0.001],
  ['trihalomethanes', 0.1],
  ['haloacetic-acids', 0.06],
  ['pfas-sum', 1e-4],
  ['manganese', 0.05, { indicator: true }],
  ['iron', 0.2, { indicator: true }],
  ['sodium', 200, { indicator: true }],
  ['sulfate', 250, { indicator: true }],
  ['chloride', 250, { indicator: true }],
  ['aluminium', 0.2, { indicator: true }],
  ['conductivity', 2500, { indicator: true }],
  ['ph', 9.5, { min: 6.5, indicator: true }],
];

const NONE_FOUND: readonly ElsewhereLimit[] = [
  { analyte: 'e-coli', from: 'who', absent: true, provenance: 'from-memory' },
  { analyte: 'e-coli', from: 'eu', absent: true, provenance: 'from-memory' },
  { analyte: 'enterococci', from: 'eu', absent: true, provenance: 'from-memory' },
  { analyte: 'total-coliform', from: 'eu', absent: true, provenance: 'from-memory', indicator: true },
];

const limitFrom =
  (from: ElsewhereSource) =>
  ([analyte, max, more = {}]: Figures): ElsewhereLimit => ({
    analyte,
    from,
    max,
    provenance: 'from-memory',
    ...more,
  });

export const ELSEWHERE_LIMITS: readonly ElsewhereLimit[] = [
  ...WHO.map(limitFrom('who')),
  ...EU.map(limitFrom('eu')),
  ...NONE_FOUND,
];
