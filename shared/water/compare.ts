/**
 * A result beside the published limits: over, at, under, or not to be told because the laboratory
 * could not see so little. That is arithmetic and no judgement of the water: what it means, the
 * laboratory and the health department say.
 */
import { adviceTexts as texts } from './advice-texts.ts';
import { analyte } from './analytes.ts';
import { ELSEWHERE_LIMITS, type ElsewhereLimit } from './elsewhere-limits.ts';
import { limitsOn, type Limit } from './limits.ts';
import type { WaterResult } from './result.ts';

/** `none-found`: not detected, and the report does not say how little it could have seen. */
export type Verdict = 'over' | 'at' | 'under' | 'below-range' | 'cannot-tell' | 'none-found';

export interface LimitComparison {
  limit: Limit;
  verdict: Verdict;
  /**
   * How it stood against the limit of the day on which the sample was drawn, where that was
   * another.
   */
  atSampling?: { limit: Limit; verdict: Verdict };
}

/**
 * `drawnOn` and `today`: ISO dates. Compared with what holds today; an older limit is added where
 * it says otherwise.
 */
export function compareResult(
  result: WaterResult,
  dates: { drawnOn: string; today: string },
): LimitComparison[] {
  const { key } = result;
  if (key === undefined) return [];
  const old = limitsOn(key, dates.drawnOn);
  return limitsOn(key, dates.today).map((limit) => {
    const verdict = verdictFor(result, limit);
    const before = old.find((one) => one.kind === limit.kind);
    const changed = before !== undefined && before !== limit && verdictFor(result, before) !== verdict;
    return {
      limit,
      verdict,
      ...(changed && before ? { atSampling: { limit: before, verdict: verdictFor(result, before) } } : {}),
    };
  });
}

export interface ElsewhereComparison {
  limit: ElsewhereLimit;
  verdict: Verdict;
}

/** Beside what is published elsewhere: shown, and no reason for advice. */
export function compareElsewhere(result: WaterResult): ElsewhereComparison[] {
  return ELSEWHERE_LIMITS.filter(({ analyte }) => analyte === result.key).map((limit) => ({
    limit,
    verdict: verdictFor(result, limit),
  }));
}

type Bounds = Pick<Limit, 'max' | 'min' | 'absent'>;

function verdictFor(result: WaterResult, limit: Bounds): Verdict {
  return limit.absent ? verdictForAbsence(result) : verdictForValue(result, limit);
}

/** "< 1 in 100 mL" is how a count says that it found none. */
function verdictForAbsence({ is, value }: WaterResult): Verdict {
  switch (is) {
    case 'present':
    case 'above':
      return 'over';
    case 'absent':
      return 'under';
    case 'below':
      return value === undefined || value <= 1 ? 'under' : 'cannot-tell';
    case 'value':
      return value === 0 ? 'under' : 'over';
    default:
      return is satisfies never;
  }
}

function verdictForValue(result: WaterResult, { max, min }: Bounds): Verdict {
  const { is, value } = result;
  if (is === 'present' || is === 'absent') return 'cannot-tell';
  if (value === undefined) return is === 'below' ? 'none-found' : 'cannot-tell';
  if (is === 'below') return max !== undefined && value <= max && min === undefined ? 'under' : 'cannot-tell';
  const shown = roundToFigures(value, result.significantFigures);
  if (is === 'above') return max !== undefined && shown >= max ? 'over' : 'cannot-tell';
  if (min !== undefined && shown < min) return 'below-range';
  if (max === undefined) return 'under';
  return shown > max ? 'over' : shown === max ? 'at' : 'under';
}

/**
 * Rounded to the figures that the report gave, so that 44.27 mg/L as NO3 is 10.00 as N and not
 * 10.0004. At least three: 46 mg/L as NO3 is 10.4 as N, and with its two figures it would be told
 * to lie at the limit of 10 that it is over.
 */
function roundToFigures(value: number, figures: number | undefined): number {
  return Number(value.toPrecision(Math.min(15, Math.max(3, figures ?? 15))));
}

/** Whether bacteria were found that tell of a way in for what makes ill. */
export function bacteriaFound(result: WaterResult): boolean {
  return (
    result.key !== undefined &&
    // They clog and smell, and tell of no way in for what makes ill.
    result.key !== 'iron-bacteria' &&
    analyte(result.key).measure === 'count' &&
    verdictForAbsence(result) === 'over'
  );
}

/** Times over a limit from which the unit is asked after: ug/L read as mg/L is a thousand. */
const IMPLAUSIBLE_FACTOR = 100;

/** What is odd and yet possible about a result: a question for the person, never a refusal. */
export function plausibilityQuestion(result: WaterResult, today: string): string | undefined {
  if (result.key === undefined || result.value === undefined || result.is === 'below') return undefined;
  const highest = Math.max(0, ...limitsOn(result.key, today).map(({ max }) => max ?? 0));
  if (highest === 0 || result.value < IMPLAUSIBLE_FACTOR * highest) return undefined;
  return texts().isThatTheUnit({ factor: IMPLAUSIBLE_FACTOR, unit: result.unit });
}
