/** The word for how much attention a well asks for. The mark beside it says the same by shape, so that colour is never alone. */
import type { Attention } from '../../shared/api/wells.ts';

export const ATTENTION_WORDS: Record<Attention, string> = {
  now: 'Act today',
  soon: 'Within days',
  unheard: 'Not heard',
  note: 'Worth a look',
  visit: 'Visit open',
  learning: 'Learning',
  fine: 'As it should be',
  away: 'Put aside',
};

/** One sentence over all wells: "One well wants you today, two within days." */
export function summaryWords(attentions: readonly Attention[]): string {
  const count = (one: Attention): number => attentions.filter((attention) => attention === one).length;
  const parts = [
    count('now') > 0 ? `${number(count('now'))} to act on today` : '',
    count('soon') > 0 ? `${number(count('soon'))} within days` : '',
    count('unheard') > 0 ? `${number(count('unheard'))} not heard` : '',
    count('note') > 0 ? `${number(count('note'))} worth a look` : '',
  ].filter((part) => part !== '');
  const all = `${capital(number(attentions.length))} ${attentions.length === 1 ? 'well' : 'wells'}`;
  if (parts.length === 0) return `${all}, and no alarm stands.`;
  return `${all}: ${parts.join(', ')}.`;
}

const NUMBERS = [
  'none',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

function number(n: number): string {
  return NUMBERS[n] ?? String(n);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
