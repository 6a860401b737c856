/** Results and limits of water in words and figures. */
import type { WaterResultAnswer } from '../../api/due.ts';
import { formatNumber } from '../../quantity/format-quantity.ts';
import { LIMIT_WORDS, VERDICT_WORDS } from './water-words.ts';

export type Compared = WaterResultAnswer['comparisons'][number];
type Limit = Compared['limit'];

const FOUND_TEXT: Partial<Record<Compared['verdict'], string>> = {
  over: 'Some were found',
  under: 'None was found',
};

/**
 * Small amounts keep three figures: 0.00000400 is told as 4e-6 by nobody, so under a thousandth it
 * goes in ug/L, then in ng/L.
 */
export function amountText(value: number, unit: string): string {
  const mass = /^mg\/L(.*)$/.exec(unit);
  if (mass && value > 0 && value < 1e-3)
    return value < 1e-6 * 100
      ? `${significantText(value * 1e6)} ng/L${mass[1]}`
      : `${significantText(value * 1e3)} ug/L${mass[1]}`;
  return unit === '' ? significantText(value) : `${significantText(value)} ${unit}`;
}

function significantText(value: number): string {
  if (value >= 100) return formatNumber(value, 0);
  const decimals = value === 0 ? 0 : Math.min(6, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value)))));
  return formatNumber(value, decimals);
}

/** The result in the kept unit: "2.1 mg/L as N", "under 0.5 ug/L", "none found". */
export function resultText({ is, value, unit }: WaterResultAnswer): string {
  switch (is) {
    case 'present':
      return 'found';
    case 'absent':
      return 'none found';
    case 'below':
      return value === undefined ? 'not detected' : `under ${amountText(value, unit)}`;
    case 'above':
      return value === undefined ? 'too many to count' : `over ${amountText(value, unit)}`;
    case 'value':
      return amountText(value ?? 0, unit);
    default:
      return is satisfies never;
  }
}

/** "10 mg/L as N", "6.5 to 8.5", "none". */
export function limitText({ max, min, absent }: Pick<Limit, 'max' | 'min' | 'absent'>, unit: string): string {
  if (absent) return 'none in 100 mL';
  if (max === undefined) return '';
  return min === undefined ? amountText(max, unit) : `${significantText(min)} to ${amountText(max, unit)}`;
}

/** "Primary limit 10 mg/L as N: not over it." */
export function comparedText({ limit, verdict }: Compared, unit: string): string {
  const { name } = LIMIT_WORDS[limit.kind];
  if (limit.absent)
    return `${name}: none may be found in 100 mL. ${FOUND_TEXT[verdict] ?? VERDICT_WORDS[verdict]}.`;
  return `${name} ${limitText(limit, unit)}: ${VERDICT_WORDS[verdict]}.`;
}

/** "From 2024-12-30. 40 CFR 141.80." with what is only from memory marked. */
export function sourceText({ citation, effectiveFrom, effectiveUntil, provenance, note }: Limit): string {
  const since =
    effectiveFrom === undefined
      ? 'From when: not known here.'
      : `From ${effectiveFrom.on}${effectiveUntil === undefined ? '' : ` to ${effectiveUntil}`}${effectiveFrom.provenance === 'from-memory' ? ' (date from memory)' : ''}.`;
  return [`${citation}${provenance === 'from-memory' ? ' (from memory)' : ''}.`, since, note]
    .filter(Boolean)
    .join(' ');
}

/**
 * What stands out, worst first: bacteria, which make ill at once, then what is for health, then the
 * rest. In a rank the order stays.
 */
export function notableResults<R extends WaterResultAnswer>(results: readonly R[]): R[] {
  return results.filter(isNotable).toSorted((a, b) => severityRank(a) - severityRank(b));
}

function severityRank({ comparisons, advice }: WaterResultAnswer): number {
  const over = comparisons.filter(({ verdict }) => verdict === 'over' || verdict === 'at');
  // Bacteria without a limit of their own have advice all the same.
  if (over.some(({ limit }) => limit.absent) || (comparisons.length === 0 && advice !== undefined)) return 0;
  return over.some(({ limit }) => limit.kind !== 'secondary') ? 1 : 2;
}

export function isNotable(result: WaterResultAnswer): boolean {
  return (
    result.advice !== undefined ||
    result.stock !== undefined ||
    result.comparisons.some(({ verdict }) => verdict === 'over' || verdict === 'below-range')
  );
}
