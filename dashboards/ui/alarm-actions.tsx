/**
 * What a person can do about an alarm: say that it was seen, or put it aside for a time. Neither
 * touches a pump.
 */
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { nowMs } from '../data/clock.ts';
import { useAppContext } from '../data/settings.ts';
import { DAY_MS, HOUR_MS } from '../../shared/units/duration.ts';
import { DurationField, ActionForm, textOf } from './action-form.tsx';
import { texts } from './texts.ts';

const SHELVE_TIMES_MS = [4 * HOUR_MS, DAY_MS, 3 * DAY_MS, 7 * DAY_MS, 30 * DAY_MS];

interface AlarmActionProps {
  alarm: AlarmAnswer;
  when: (ms: number) => string;
  changed: () => void;
}

export function AcknowledgeForm({ alarm, when, changed }: AlarmActionProps) {
  const { source } = useAppContext();
  if (alarm.acknowledgedMs !== undefined) {
    return (
      <p class="actions" role="status">
        {texts().acknowledged(when(alarm.acknowledgedMs), alarm.acknowledgedBy)}
      </p>
    );
  }
  if (!source.live) return <p class="actions">{texts().notAcknowledgedInCopy}</p>;
  return (
    <ActionForm
      class="actions action-form"
      button={texts().acknowledge}
      submit={(to, _fields, actor) => to.post('acknowledge', { id: alarm.id }, actor)}
      done={changed}
    />
  );
}

/** An alarm of a whole site is nobody's to put aside: it is of the network, and ends by itself. */
export function ShelveForm({ alarm, when, changed }: AlarmActionProps) {
  const { shelvedUntilMs } = alarm;
  if (alarm.site !== undefined && alarm.well === undefined) return null;
  if (shelvedUntilMs !== undefined && shelvedUntilMs > nowMs())
    return (
      <p class="actions" role="status">
        {texts().shelvedUntil(when(shelvedUntilMs))}
      </p>
    );
  return (
    <details class="more acts">
      <summary>{texts().shelveForATime}</summary>
      <p>{texts().shelveHelp}</p>
      <ActionForm
        button={texts().shelve}
        submit={(to, fields, actor) =>
          to.post(
            'shelve',
            { id: alarm.id },
            { ...actor, untilMs: Math.round(nowMs() + Number(textOf(fields, 'span'))) },
          )
        }
        done={changed}
      >
        <DurationField label={texts().shelveFor} optionsMs={SHELVE_TIMES_MS} />
      </ActionForm>
    </details>
  );
}
