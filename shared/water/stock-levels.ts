/**
 * How much of what is in water livestock bear, in steps: what is safe for one herd is not for
 * another, and feed counts too. North Dakota State University, "Livestock Water Quality" (AS1764),
 * and Montana State University, "Suitability of Water for Livestock" (MT202209AG); the figures are
 * from memory. A veterinarian or the extension office judges the herd.
 */
import type { AnalyteKey } from './analytes.ts';
import type { WaterResult } from './result.ts';

export const STOCK_STEPS = ['watch', 'risk', 'unfit'] as const;
export type StockStep = (typeof STOCK_STEPS)[number];

/** From which value on, in the kept unit and form. */
const STOCK_LEVELS: Partial<Record<AnalyteKey, Readonly<Record<StockStep, number>>>> = {
  /** As N: over 10 with feed low in nitrate alone; over 40 losses; over 100 not at all. */
  nitrate: { watch: 10, risk: 40, unfit: 100 },
  'nitrate-nitrite': { watch: 10, risk: 40, unfit: 100 },
  /** 500 for calves, 1,000 for grown cattle; over 3,000 not at all. */
  sulfate: { watch: 500, risk: 1000, unfit: 3000 },
  /** 3,000 scours at first; 7,000 not for those with young; over 10,000 not at all. */
  tds: { watch: 3000, risk: 7000, unfit: 10_000 },
};

/** The step that a result has reached; undefined where there is none, or nobody can tell. */
export function stockStep({ key, is, value }: WaterResult): StockStep | undefined {
  const levels = key && STOCK_LEVELS[key];
  if (!levels || value === undefined || (is !== 'value' && is !== 'above')) return undefined;
  return STOCK_STEPS.findLast((step) => value > levels[step] || (is === 'above' && value === levels[step]));
}
