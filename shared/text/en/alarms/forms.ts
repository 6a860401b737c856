/**
 * Some alarms ask for another first step in one of their forms. A finding names its form in its
 * evidence, so the words follow it wherever the evidence goes: into a mail, onto a page, into the
 * store and back.
 */
import type { Evidence } from '../../../api/events.ts';
import { fillCardNames, type CardNames } from '../card-names.ts';
import { RAW_ALARM_WORDS } from './alarm-words.ts';
import { FORM_EVIDENCE } from '../../../alarms/form-evidence.ts';
import { ALARM_FORMS, type AlarmForm, type AlarmKind } from './kinds.ts';
import type { AlarmWords, FormWords } from './text-shapes.ts';

/** The form that the evidence names, where the alarm has words for it. */
export function formOf(alarm: AlarmKind, evidence: Evidence = {}): AlarmForm | undefined {
  return ALARM_FORMS.find(
    (form) =>
      formWords(alarm, form) !== undefined &&
      Object.entries(FORM_EVIDENCE[form]).every(([figure, value]) => evidence[figure] === value),
  );
}

/** The words of an alarm in the form that its evidence names, with the names on the well's card. */
export function alarmWords(alarm: AlarmKind, evidence?: Evidence, names?: CardNames): AlarmWords {
  const form = formOf(alarm, evidence);
  const words = { ...RAW_ALARM_WORDS[alarm], ...(form && RAW_ALARM_WORDS[alarm].forms?.[form]) };
  return { ...words, firstStep: fillCardNames(words.firstStep, names) };
}

export function formWords(alarm: AlarmKind, form: AlarmForm): FormWords | undefined {
  const words = RAW_ALARM_WORDS[alarm].forms?.[form];
  return words && { ...words, firstStep: fillCardNames(words.firstStep) };
}
