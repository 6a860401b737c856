/** A standing alarm: what, since when, why, what may be behind it, the first safe step with its cautions, and the button that says it was seen. */
import { useState } from 'preact/hooks';
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { ALARM_WORDS } from '../../shared/words/alarm-words.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { momentWords } from '../../shared/api/time-words.ts';
import { nowMs } from '../data/clock.ts';
import { rememberedName, rememberName, useSurroundings } from '../data/settings.ts';
import { AskError } from '../data/source.ts';
import { causeLines } from '../words/alarm.ts';
import { Mark } from './mark.tsx';

export function AlarmCard({
  alarm,
  timeZone,
  changed,
}: {
  alarm: AlarmAnswer;
  timeZone: string;
  changed: () => void;
}) {
  const { units } = useSurroundings();
  const { title, means, firstStep, canBeWrong, cautions } = ALARM_WORDS[alarm.alarm];
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs());
  return (
    <article class={`alarm is-${alarm.priority}`} aria-labelledby={alarm.id}>
      <header>
        <h3 id={alarm.id}>{title}</h3>
        <Mark attention={alarm.priority} />
      </header>
      <div class="alarm-said">
        <p class="why">{sentence(alarm.why)}</p>
        <p class="doing">Since {when(alarm.sinceMs)}.</p>
        <p>{means}</p>
        <Causes alarm={alarm} />
      </div>
      <div class="alarm-done">
        <h4>First safe step</h4>
        <p>{firstStep}</p>
        {cautions.length > 0 && (
          <ul class="cautions" aria-label="Cautions">
            {cautions.map((caution) => (
              <li key={caution}>{CAUTIONS[caution]}</li>
            ))}
          </ul>
        )}
        <h4>When this can be wrong</h4>
        <p>{canBeWrong}</p>
      </div>
      <Seen alarm={alarm} when={when} changed={changed} />
    </article>
  );
}

function Causes({ alarm }: { alarm: AlarmAnswer }) {
  if (alarm.causes.length === 0) return null;
  return (
    <>
      <h4>What may be behind it</h4>
      <ol class="causes">
        {causeLines(alarm.causes).map(({ names, likely, what, toldApartBy }) => (
          <li key={names}>
            <strong>{names}</strong> <span class="likely">{likely}.</span> {what}
            {toldApartBy !== undefined && ` These look alike. To tell which: ${toldApartBy}.`}
          </li>
        ))}
      </ol>
    </>
  );
}

function sentence(text: string): string {
  return text === '' || text.endsWith('.') ? text : `${text}.`;
}

function Seen({
  alarm,
  when,
  changed,
}: {
  alarm: AlarmAnswer;
  when: (ms: number) => string;
  changed: () => void;
}) {
  const { source } = useSurroundings();
  const [name, setName] = useState(rememberedName);
  const [failed, setFailed] = useState('');
  const [asking, setAsking] = useState(false);
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
  const acknowledge = async (event: Event): Promise<void> => {
    event.preventDefault();
    setAsking(true);
    setFailed('');
    const by = name.trim();
    rememberName(by);
    try {
      await source.tell('acknowledge', { id: alarm.id }, by === '' ? {} : { by });
      changed();
    } catch (error) {
      setFailed(error instanceof AskError ? error.message : 'That did not work.');
    }
    setAsking(false);
  };
  return (
    <form class="seen" onSubmit={(event) => void acknowledge(event)}>
      <label>
        Your name{' '}
        <input
          type="text"
          autocomplete="name"
          maxLength={80}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <button type="submit" disabled={asking}>
        Acknowledge
      </button>
      <p role="status">{failed}</p>
    </form>
  );
}
