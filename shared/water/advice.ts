/**
 * When water is to be tested again, and what is to be said with a result that stands out. Stillwell
 * records; the laboratory and the health department interpret.
 */
import type { Caution } from '../text/en/cautions.ts';
import { adviceTexts as texts } from './advice-texts.ts';
import type { AnalyteKey } from './analytes.ts';
import { bacteriaFound, type LimitComparison } from './compare.ts';
import type { WaterResult } from './result.ts';
import { analyteName } from '../text/en/logbook/analyte-names.ts';

/** EPA "Protect Your Home's Water" (2021), and CDC: each year. */
export const YEARLY_ANALYTES: readonly AnalyteKey[] = ['total-coliform', 'nitrate', 'tds', 'ph'];
export const YEAR_DAYS = 365;

export interface Advice {
  key: AnalyteKey | 'other';
  text: string;
  /** Days after the sample at which it is worth drawing the next one. */
  retestDays?: number;
  cautions: readonly Caution[];
}

/**
 * A second sample at once (40 CFR 141.858 asks public systems for repeats within 24 h, from
 * memory). This is for the one after disinfection, when the chlorine is gone: 5 to 14 days by state
 * and extension sheets.
 */
const AFTER_DISINFECTION_DAYS = 14;
/**
 * A second sample within a month before anybody spends money on treatment (common practice, no
 * source).
 */
const CONFIRM_DAYS = 30;
/** Half of the limit is where many advise a second test a year (common practice, no source). */
const NITRATE_WATCH_MG_PER_L = 5;
const HALF_YEAR_DAYS = 182;

/** What is said of one result; undefined where nothing stands out. */
export function adviceFor(result: WaterResult, comparisons: readonly LimitComparison[]): Advice | undefined {
  const key = result.key ?? 'other';
  if (bacteriaFound(result)) return bacteriaAdvice(result, key);
  const over = comparisons.filter(({ verdict }) => verdict === 'over' || verdict === 'below-range');
  const health =
    over.find(({ limit }) => limit.kind !== 'secondary') ??
    comparisons.find(({ limit, verdict }) => limit.kind !== 'secondary' && verdict === 'at');
  if (health && result.key === 'sodium') return { key, text: texts().sodium, cautions: [] };
  if (health) return healthLimitAdvice(result, key, health.verdict === 'at' ? 'at' : 'over');
  if (result.key === 'nitrate' && result.is === 'value' && (result.value ?? 0) >= NITRATE_WATCH_MG_PER_L)
    return {
      key,
      text: texts().nitrate,
      retestDays: HALF_YEAR_DAYS,
      cautions: [],
    };
  if (over.length > 0 && result.key === 'fluoride') return { key, text: texts().fluoride, cautions: [] };
  if (over.length > 0) return { key, text: texts().secondary(result.name), cautions: [] };
  if (result.is === 'above' && comparisons.some(({ verdict }) => verdict === 'cannot-tell'))
    return { key, text: texts().onlyOver(nameMidSentence(result)), cautions: [] };
  if (comparisons.some(({ verdict }) => verdict === 'cannot-tell'))
    return { key, text: texts().couldNotSee(nameMidSentence(result)), cautions: [] };
  return undefined;
}

const DUNG_BACTERIA: readonly Advice['key'][] = ['e-coli', 'fecal-coliform', 'enterococci'];

function bacteriaAdvice(result: WaterResult, key: Advice['key']): Advice {
  return {
    key,
    text: texts().bacteria({ name: result.name, fromDung: DUNG_BACTERIA.includes(key) }),
    retestDays: AFTER_DISINFECTION_DAYS,
    cautions: ['disinfecting', 'bacteria-again'],
  };
}

function healthLimitAdvice(result: WaterResult, key: Advice['key'], verdict: 'at' | 'over'): Advice {
  return {
    key,
    text: verdict === 'at' ? texts().atLimit(result.name) : texts().overLimit(result.name),
    retestDays: CONFIRM_DAYS,
    cautions: overCautions(key),
  };
}

const NITROGEN: readonly Advice['key'][] = ['nitrate', 'nitrite', 'nitrate-nitrite'];
/** Boiling drives these out of the water, into the air of the room (from memory). */
const VOLATILE: readonly Advice['key'][] = [
  'benzene',
  'trichloroethylene',
  'tetrachloroethylene',
  'vinyl-chloride',
  'trihalomethanes',
];
/**
 * Boiling is no wrong advice for what lives in cloudy water, and chlorine leaves by itself.
 * Bacteria have advice of their own.
 */
const NOT_BY_BOILING: readonly Advice['key'][] = [
  'turbidity',
  'chlorine',
  'chloramine',
  'chlorine-dioxide',
  'total-coliform',
  'e-coli',
  'fecal-coliform',
];

/** What people do at home with water over a health limit, and what it does to it. */
function overCautions(key: Advice['key']): Caution[] {
  if (NITROGEN.includes(key)) return ['nitrate'];
  if (VOLATILE.includes(key)) return ['solvents'];
  if (NOT_BY_BOILING.includes(key)) return [];
  return key === 'lead' || key === 'copper' ? ['chemicals', 'plumbing-metals'] : ['chemicals'];
}

function nameMidSentence(result: WaterResult): string {
  return result.key === undefined
    ? result.name
    : /^[A-Z][a-z]+\b/.test(analyteName(result.key))
      ? result.name.toLowerCase()
      : result.name;
}
