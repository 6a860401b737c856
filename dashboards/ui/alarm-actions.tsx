/**
 * What a person can do about an alarm: say that it was seen, or put it aside for a time. Neither
 * touches a pump.
 */
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { nowMs } from '../data/clock.ts';
import { useAppContext } from '../data/settings.ts';
import { DAY, DAYS, HOURS, MONTH, DurationField, ActionForm, textOf, WEEK } from './action-form.tsx';

interface AlarmActionProps {
  alarm: AlarmAnswer;
  when: (ms: number) => string;
  changed: () => void;
}

export function AcknowledgeForm({ alarm, when, changed }: AlarmActionProps) {
  const { source } = useAppContext();
  if (alarm.acknowledgedMs !== undefined) {
    const by = alarm.acknowledgedBy === undefined ? '' : ` by ${alarm.acknowledgedBy}`;
    return (
      <p
        class="actions"
        role="status"
      >{`Acknowledged ${when(alarm.acknowledgedMs)}${by}. It stands until the cause is gone.`}</p>
    );
  }
  if (!source.live) return <p class="actions">Not acknowledged when this copy was made.</p>;
  return (
    <ActionForm
      class="actions action-form"
      button="Acknowledge"
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
        Shelved until {when(shelvedUntilMs)}. It stays active; no notices go out until then.
      </p>
    );
  return (
    <details class="more acts">
      <summary>Put it aside for a time</summary>
      <p>
        For something you know of and can’t mend today. The alarm goes on standing; nobody is told of it until
        the time is over.
      </p>
      <ActionForm
        button="Shelve"
        submit={(to, fields, actor) =>
          to.post(
            'shelve',
            { id: alarm.id },
            { ...actor, untilMs: Math.round(nowMs() + Number(textOf(fields, 'span'))) },
          )
        }
        done={changed}
      >
        <DurationField label="For" options={[HOURS, DAY, DAYS, WEEK, MONTH]} />
      </ActionForm>
    </details>
  );
}
