/**
 * Why an alarm is active, as a sentence in a reader's units. Alarms of earlier versions were stored
 * with their sentence; so may be one with a reason that this version does not know, if it came from
 * another Stillwell.
 */
import type { UnitSystem } from '../../../quantity/format-quantity.ts';
import { REASON_FORMATS } from './format.ts';
import type { Figures } from './reason-text.ts';
import { reasonSentence, type StoredReason } from './reasons.ts';

export interface Explained {
  reason?: string;
  figures?: Figures;
  why?: string;
}

export function whyText({ reason, figures, why }: Explained, units: UnitSystem | 'both'): string {
  const sentence =
    reason === undefined
      ? undefined
      : reasonSentence({ reason, figures: figures ?? {} }, REASON_FORMATS[units]);
  return sentence ?? why ?? '';
}

/** The reason with its figures. A sentence without one is its own: `as-written`. */
export function storedReason({ reason, figures, why }: Explained): StoredReason {
  return reason === undefined
    ? { reason: 'as-written', figures: { text: why ?? '' } }
    : { reason, figures: figures ?? {} };
}
