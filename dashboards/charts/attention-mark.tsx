/**
 * The mark of how much attention a well asks for: a well's stone ring seen from above, of our own
 * drawing. Calm water where all is as it should be; one, two, three notches cut into the ring the
 * more it presses, at three filled; a ring of dashes where nothing is heard.
 */
import type { Attention } from '../../shared/api/wells.ts';
import { URGENCY_WORDS, type Urgency } from '../../shared/text/en/alarms/urgency.ts';
import { attentionWords } from '../words/attention.ts';

const NOTCHES: Partial<Record<Attention, number[]>> = { note: [0], soon: [-4, 4], now: [-6, 0, 6] };

interface MarkProps {
  attention: Attention;
  /** Where alarms ask for it: the words are theirs, which know two levels of `now`. */
  urgency?: Urgency | undefined;
}

export function AttentionMark({ attention, urgency }: MarkProps) {
  return (
    <span class={`mark mark-${attention}`}>
      <svg viewBox="-14 -14 28 28" width="28" height="28" aria-hidden="true">
        <circle class="ring" r="11" />
        {NOTCHES[attention]?.map((x) => (
          <path class="notch" key={x} d={`M${x} -6v12`} />
        ))}
        {attention === 'normal' && <path class="water" d="M-7 1q3.5 -3.5 7 0t7 0" />}
        {attention === 'learning' && <path class="water" d="M-7 1q3.5 -3.5 7 0" />}
        {attention === 'visit' && <path class="notch" d="M-5 5l10 -10M0 -6h6v6" />}
        {attention === 'not-in-use' && <path class="notch" d="M-6 0h12" />}
      </svg>
      <span class="mark-word">
        {urgency === undefined ? attentionWords(attention) : URGENCY_WORDS[urgency].mark}
      </span>
    </span>
  );
}
