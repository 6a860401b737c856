/** What a person can do about an alarm: say that it was seen, or put it aside for a time. Neither touches a pump. */
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { DAY, DAYS, HOURS, MONTH, SpanField, TellForm, textOf, WEEK } from './tell-form.tsx';

interface ActsProps {
  alarm: AlarmAnswer;
  when: (ms: number) => string;
  changed: () => void;
}

export function Seen({ alarm, when, changed }: ActsProps) {
  const { source } = useSurroundings();
  if (alarm.acknowledgedMs !== undefined) {
    const by = alarm.acknowledgedBy === undefined ? '' : ` by ${alarm.acknowledgedBy}`;
    return (
      <p
        class="seen"
        role="status"
      >{`Acknowledged ${when(alarm.acknowledgedMs)}${by}. It stands until the cause is gone.`}</p>
    );
  }
  if (!source.live) return <p class="seen">Not acknowledged when this copy was made.</p>;
  return (
    <TellForm
      class="seen tell"
      button="Acknowledge"
      tell={(to, _fields, who) => to.tell('acknowledge', { id: alarm.id }, who)}
      done={changed}
    />
  );
}

/** An alarm of a whole site is nobody's to put aside: it is of the network, and ends by itself. */
export function PutAside({ alarm, when, changed }: ActsProps) {
  const { shelvedUntilMs } = alarm;
  if (alarm.site !== undefined && alarm.well === undefined) return null;
  if (shelvedUntilMs !== undefined && shelvedUntilMs > nowMs())
    return (
      <p class="seen" role="status">
        Put aside until {when(shelvedUntilMs)}. It stands, and nobody is told of it till then.
      </p>
    );
  return (
    <details class="more acts">
      <summary>Put it aside for a time</summary>
      <p>
        For something you know of and can’t mend today. The alarm goes on standing; nobody is told of it until
        the time is over.
      </p>
      <TellForm
        button="Put aside"
        tell={(to, fields, who) =>
          to.tell(
            'shelve',
            { id: alarm.id },
            { ...who, untilMs: Math.round(nowMs() + Number(textOf(fields, 'span'))) },
          )
        }
        done={changed}
      >
        <SpanField label="For" spans={[HOURS, DAY, DAYS, WEEK, MONTH]} />
      </TellForm>
    </details>
  );
}
