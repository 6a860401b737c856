/**
 * The words of one alarm for a notice, out of the wording that the pages use too (shared/text/en/).
 * The one place where notices meet it: which causes are named, and which cautions go along.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import { ALARM_WORDS } from '../../../shared/text/en/alarms/alarm-words.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import type { CardNames } from '../../../shared/text/en/card-names.ts';
import { CAUTIONS, type Caution } from '../../../shared/text/en/cautions.ts';
import { alarmWords } from '../../../shared/text/en/alarms/forms.ts';
import { lookAlikesAmong } from '../../../shared/text/en/causes/look-alikes.ts';
import { texts } from './texts.ts';

export interface NoticeWords {
  /** As it stands within a sentence. */
  title: string;
  means: string;
  /** Likeliest first, in words; where they look alike, what tells them apart. */
  causes: string[];
  firstStep: string;
  canBeWrong: string;
  cautions: string[];
}

/** More than three likely causes are no help to somebody on the way to the well. */
const MAX_CAUSES = 3;
/**
 * What kills at once comes first; switching off and locking off come before what is done after it.
 */
const FIRST_CAUTIONS: readonly Caution[] = [
  'hot-panel',
  'live-metal',
  'downed-line',
  'runaway-heater',
  'switching-off',
  'lock-out',
  'breaker-once',
  'electrician',
  'well-cap',
  'well-pit',
  'closed-space',
  'tank-pressure',
];
const CAUTION_ORDER: readonly Caution[] = [...new Set([...FIRST_CAUTIONS, ...allCautions()])];

export function noticeWordsFor(event: AlarmEvent, names?: CardNames): NoticeWords {
  const words = alarmWords(event.alarm, event.evidence, names);
  const causes = (event.causes ?? []).slice(0, MAX_CAUSES).map(({ cause }) => cause);
  const cautions = new Set<Caution>(words.cautions);
  // The likeliest cause decides what somebody does next, so its cautions go along.
  if (causes[0] !== undefined) for (const caution of CAUSE_WORDS[causes[0]].cautions) cautions.add(caution);
  const groups = lookAlikesAmong(causes);
  for (const caution of groups.flatMap((group) => group.cautions ?? [])) cautions.add(caution);
  return {
    title: lowerFirst(words.title),
    means: words.means,
    causes: [
      ...causes.map((cause) => CAUSE_WORDS[cause].name),
      ...groups.map(({ distinguishedBy }) => texts().toTellApart(distinguishedBy)),
    ],
    firstStep: words.firstStep,
    canBeWrong: words.canBeWrong,
    cautions: CAUTION_ORDER.filter((caution) => cautions.has(caution)).map((caution) => CAUTIONS[caution]),
  };
}

/** "Pump runs …" becomes "pump runs …"; a name in capitals stays. */
function lowerFirst(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

function allCautions(): Caution[] {
  return [...Object.values(ALARM_WORDS), ...Object.values(CAUSE_WORDS)].flatMap(({ cautions }) => cautions);
}
