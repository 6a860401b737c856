/**
 * The words of one alarm for a notice, out of the wording that the pages use too. The one place where notices meet it.
 */
import type { AlarmEvent } from '../../shared/api/events.ts';
import type { UnitSystem } from '../../shared/quantity/print-quantity.ts';

export interface AlarmWords {
  /** "short cycling", as it stands within a sentence. */
  title: string;
  /** What it means, one or two sentences; may be empty. */
  means: string;
  /** Likeliest first, in words. */
  causes: string[];
  firstStep: string;
  cautions: string[];
}

/** Where the work can hurt someone, whatever the alarm. */
const CAUTIONS = [
  'Mains voltage is on the pump circuit. Leave covers closed; work inside belongs to a licensed electrician or well contractor, under local code and the equipment’s instructions.',
  'A pressure tank and pipes hold pressure; they are opened only by someone who knows how to relieve it.',
];

export function wordsFor(event: AlarmEvent, _units: UnitSystem): AlarmWords {
  return {
    title: event.alarm.replaceAll('-', ' '),
    means: '',
    causes: (event.causes ?? []).map(({ cause }) => cause.replaceAll('-', ' ')),
    firstStep:
      'Look and listen at the pressure gauge, the tank and the taps without opening anything, and call whoever services the well with what you find.',
    cautions: CAUTIONS,
  };
}
