/**
 * The word for how much attention a well asks for. The mark beside it says the same by shape, so
 * that color is never alone.
 */
import type { Attention } from '../../shared/api/wells.ts';
import type { Urgency } from '../../shared/text/en/alarms/urgency.ts';

export const ATTENTION_WORDS: Record<Attention, string> = {
  now: 'Act now',
  soon: 'This week',
  'no-data': 'Not heard',
  note: 'Worth a look',
  visit: 'Visit open',
  learning: 'Learning',
  normal: 'Normal',
  'not-in-use': 'Not in use',
};

/**
 * One sentence over all wells: "Five wells: one to act on now, two this week." Where alarms ask, by
 * their urgency.
 */
export function summaryWords(attentions: readonly (Attention | Urgency)[]): string {
  const count = (one: Attention | Urgency): number =>
    attentions.filter((attention) => attention === one).length;
  const atOnce = count('now') + count('minutes');
  const parts = [
    atOnce > 0 ? `${number(atOnce)} to act on now` : '',
    count('today') > 0 ? `${number(count('today'))} to act on today` : '',
    count('soon') > 0 ? `${number(count('soon'))} this week` : '',
    count('no-data') > 0 ? `${number(count('no-data'))} not heard` : '',
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
