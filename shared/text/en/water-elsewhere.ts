/** Limits for people elsewhere, and steps for livestock, in words. */
import type { WaterResultAnswer } from '../../api/due.ts';
import type { ElsewhereSource } from '../../water/elsewhere-limits.ts';
import type { StockStep } from '../../water/stock-levels.ts';
import { amountText, limitText } from './water-text.ts';
import { VERDICT_WORDS } from './water-words.ts';

export type ComparedElsewhere = WaterResultAnswer['elsewhere'][number];

export const ELSEWHERE_NAMES: Record<ElsewhereSource, string> = {
  who: 'WHO guideline (4th edition, addendum of 2022)',
  eu: 'EU directive 2020/2184 (in force from 2021-01-12, date from memory)',
};

/** "11.3 mg/L as N: not over it (from memory)." */
export function elsewhereText({ limit, verdict }: ComparedElsewhere, unit: string): string {
  const { later, indicator, provenance } = limit;
  const marks = [
    ...(indicator ? ['not for health'] : []),
    ...(later ? [`${amountText(later.max, unit)} from ${later.on}`] : []),
    ...(provenance === 'from-memory' ? ['from memory'] : []),
  ];
  const more = marks.length === 0 ? '' : ` (${marks.join('; ')})`;
  return `${limitText(limit, unit)}: ${VERDICT_WORDS[verdict]}${more}.`;
}

const ASK_VET =
  'Show the result to a veterinarian or the extension office: age, kind and feed of the animals count.';

const STOCK_STEP_TEXT: Record<StockStep, string> = {
  watch: `higher than suits all livestock. ${ASK_VET}`,
  risk: `high enough to harm livestock. Give young and pregnant animals other water. ${ASK_VET}`,
  unfit: `too high for livestock. Give them other water, and change over by days where you can. ${ASK_VET}`,
};

/** Where the figures come from. */
export const STOCK_SOURCE =
  'For livestock: North Dakota State University, AS1764, and Montana State University, MT202209AG (figures from memory).';

export function stockText(name: string, step: StockStep): string {
  return `For livestock: ${name} is ${STOCK_STEP_TEXT[step]}`;
}
