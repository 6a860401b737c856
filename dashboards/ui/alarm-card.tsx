/**
 * A standing alarm in short: what, since when, why, what it most likely is, the first safe step
 * with its cautions, and where the whole of it is.
 */
import type { AlarmAnswer, SymptomAnswer } from '../../shared/api/alarms.ts';
import { alarmTitle } from '../../shared/text/en/alarm-title.ts';
import { whyText } from '../../shared/text/en/reasons/why.ts';
import type { CardNames } from '../../shared/text/en/card-names.ts';
import { CAUTIONS, type Caution } from '../../shared/text/en/cautions.ts';
import { alarmWords } from '../../shared/text/en/alarms/forms.ts';
import { urgencyOf } from '../../shared/text/en/alarms/urgency.ts';
import { momentWords } from '../../shared/text/en/time-words.ts';
import { nowMs } from '../data/clock.ts';
import { useAppContext } from '../data/settings.ts';
import { alarmUrl } from '../page-url.ts';
import { causeLines } from '../words/alarm.ts';
import { withNonBreakingUnits } from '../../shared/text/en/names.ts';
import { AcknowledgeForm } from './alarm-actions.tsx';
import { AttentionMark } from '../charts/attention-mark.tsx';
import { texts } from './texts.ts';

export interface AlarmCardProps {
  alarm: AlarmAnswer;
  /** What stands with it and is explained by it. */
  symptoms: readonly SymptomAnswer[];
  timeZone: string;
  names: CardNames;
  changed: () => void;
}

export function AlarmCard({ alarm, symptoms, timeZone, names, changed }: AlarmCardProps) {
  const { units } = useAppContext();
  const { title, firstStep, cautions } = alarmWords(alarm.alarm, alarm.evidence, names);
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs());
  return (
    <article class={`alarm is-${alarm.priority}`} aria-labelledby={alarm.id}>
      <header>
        <h3 id={alarm.id}>
          <a href={alarmUrl(alarm.id)}>{title}</a>
        </h3>
        <AttentionMark attention={alarm.priority} urgency={urgencyOf(alarm)} />
      </header>
      <div class="alarm-status">
        <p class="why">{withNonBreakingUnits(sentence(whyText(alarm, units)))}</p>
        <p class="secondary">{texts().since(when(alarm.sinceMs))}</p>
        <MostLikely alarm={alarm} />
        <Symptoms symptoms={symptoms} />
        <p>
          <a href={alarmUrl(alarm.id)}>{texts().evidenceAndOtherCauses}</a>
        </p>
      </div>
      <div class="alarm-done">
        <h4>{texts().firstSafeStep}</h4>
        <p>{firstStep}</p>
        <Cautions cautions={cautions} />
      </div>
      <AcknowledgeForm alarm={alarm} when={when} changed={changed} />
    </article>
  );
}

function MostLikely({ alarm }: { alarm: AlarmAnswer }) {
  const { units } = useAppContext();
  const [first, second] = causeLines(alarm, units);
  if (!first) return null;
  return (
    <p>
      <strong>{first.names}</strong> <span class="likely">{first.likely}.</span>
      {second !== undefined && ` ${texts().otherwise(second.names)}`}
    </p>
  );
}

export function Symptoms({ symptoms }: { symptoms: readonly SymptomAnswer[] }) {
  const { units } = useAppContext();
  if (symptoms.length === 0) return null;
  return (
    <>
      <h4>{texts().explainedByIt}</h4>
      <ul class="with">
        {symptoms.map((symptom) => (
          <li key={`${symptom.alarm} ${symptom.pump ?? ''}`}>
            <strong>{alarmTitle(symptom.alarm)}.</strong> {sentence(whyText(symptom, units))}
          </li>
        ))}
      </ul>
    </>
  );
}

export function Cautions({ cautions }: { cautions: readonly Caution[] }) {
  if (cautions.length === 0) return null;
  return (
    <ul class="cautions" aria-label={texts().cautions}>
      {cautions.map((caution) => (
        <li key={caution}>{CAUTIONS[caution]}</li>
      ))}
    </ul>
  );
}

export function sentence(text: string): string {
  return text === '' || text.endsWith('.') ? text : `${text}.`;
}

/** The symptoms of one alarm among those of its well. */
export function symptomsOf(alarm: AlarmAnswer, symptoms: readonly SymptomAnswer[] = []): SymptomAnswer[] {
  return symptoms.filter(
    (one) =>
      one.symptomOf === alarm.alarm &&
      (one.pump === undefined || alarm.pump === undefined || one.pump === alarm.pump),
  );
}
