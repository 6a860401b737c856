/**
 * The word for how much attention a well asks for. The mark beside it says the same by shape, so
 * that color is never alone.
 */
import type { Attention } from '../../shared/api/wells.ts';
import type { Urgency } from '../../shared/text/en/alarms/urgency.ts';
import { texts } from '../texts.ts';

export function attentionWords(attention: Attention): string {
  return texts().attention[attention];
}

/**
 * One sentence over all wells: "5 wells: 1 to act on now, 2 this week." Alarms are counted by their
 * urgency.
 */
export function summaryWords(attentions: readonly (Attention | Urgency)[]): string {
  const count = (...wanted: (Attention | Urgency)[]): number =>
    attentions.filter((attention) => wanted.includes(attention)).length;
  return texts().wellsSummary(attentions.length, {
    now: count('now', 'minutes'),
    today: count('today'),
    soon: count('soon'),
    'no-data': count('no-data'),
    note: count('note'),
  });
}
