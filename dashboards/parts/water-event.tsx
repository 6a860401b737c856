/** Something happened that makes the water worth testing: a flood, another taste, illness, a repair. It is a note with a day. */
import { useState } from 'preact/hooks';
import type { WaterAnswer } from '../../shared/api/due.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { WATER_EVENTS, WATER_EVENT_WORDS } from '../../shared/words/water-words.ts';
import { AskError, type DataSource } from '../data/source.ts';
import { entryMoment } from '../../shared/known/entry-day.ts';
import { Choose, Field, FieldRow, type Reasons } from './field.tsx';
import { LOOK_AT_FIELDS } from '../words/refused-field.ts';
import { TellForm, textOf } from './tell-form.tsx';

const EVENTS = WATER_EVENTS.map((event) => [event, WATER_EVENT_WORDS[event].asks] as const);

export function WaterEventForm(props: { well: string; value: WaterAnswer; changed: () => void }) {
  const { well, value, changed } = props;
  const [event, setEvent] = useState<string>('flood');
  const [reasons, setReasons] = useState<Reasons>({});
  const tell = async (to: DataSource, fields: FormData, who: { by?: string }): Promise<void> => {
    const when = entryMoment(textOf(fields, 'at'), value);
    if ('reason' in when) {
      setReasons({ at: when.reason });
      throw new AskError(LOOK_AT_FIELDS);
    }
    setReasons({});
    const words = EVENTS.find(([one]) => one === event)?.[1] ?? '';
    const entry = { kind: 'note', at: when.at, event, text: textOf(fields, 'text') || words };
    await to.tell('writeEntry', { well }, { entry, ...who });
  };
  return (
    <details class="more acts">
      <summary>Something happened: flood, repair, another taste, illness</summary>
      <TellForm
        class="tell form"
        button="Keep it"
        doneWords="Kept: a test is due."
        tell={tell}
        done={changed}
      >
        <FieldRow>
          <Choose name="event" label="What" options={EVENTS} change={setEvent} />
          <Field
            name="at"
            label="When"
            type="date"
            defaultValue={value.today}
            max={value.today}
            reasons={reasons}
          />
        </FieldRow>
        <Field name="text" label="Remark" maxLength={500} reasons={reasons} />
        {event === 'flood' && <p class="advice">{CAUTIONS.flood}</p>}
        {event === 'disinfected' && <p class="advice">{CAUTIONS.disinfecting}</p>}
        {event === 'repair' && <p class="advice">{CAUTIONS.contamination}</p>}
      </TellForm>
    </details>
  );
}
