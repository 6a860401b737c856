/**
 * Something happened that makes the water worth testing: a flood, another taste, illness, a repair.
 * It is a note with a day.
 */
import { useState } from 'preact/hooks';
import type { WaterAnswer } from '../../../shared/api/due.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { WATER_EVENTS, WATER_EVENT_WORDS } from '../../../shared/text/en/water-words.ts';
import { RequestError, type DataSource } from '../../data/source.ts';
import { entryMoment } from '../../../shared/notes/entry-day.ts';
import { SelectField, Field, FieldRow, type Reasons } from '../../ui/field.tsx';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';
import { texts as uiTexts } from '../../ui/texts.ts';

const EVENTS = WATER_EVENTS.map((event) => [event, WATER_EVENT_WORDS[event].question] as const);

export function WaterEventForm(props: { well: string; value: WaterAnswer; changed: () => void }) {
  const { well, value, changed } = props;
  const [event, setEvent] = useState<string>('flood');
  const [reasons, setReasons] = useState<Reasons>({});
  const submit = async (source: DataSource, fields: FormData, actor: { by?: string }): Promise<void> => {
    const when = entryMoment(textOf(fields, 'at'), value);
    if ('reason' in when) {
      setReasons({ at: when.reason });
      throw new RequestError(uiTexts().seeFields);
    }
    setReasons({});
    const words = EVENTS.find(([one]) => one === event)?.[1] ?? '';
    const entry = { kind: 'note', at: when.at, event, text: textOf(fields, 'text') || words };
    await source.post('writeEntry', { well }, { entry, ...actor });
  };
  return (
    <details class="more acts">
      <summary>{texts().recordEvent}</summary>
      <ActionForm
        class="action-form form"
        button={texts().save}
        doneMessage={texts().eventSaved}
        submit={submit}
        done={changed}
      >
        <FieldRow>
          <SelectField name="event" label={texts().event} options={EVENTS} change={setEvent} />
          <Field
            name="at"
            label={texts().date}
            type="date"
            defaultValue={value.today}
            max={value.today}
            reasons={reasons}
          />
        </FieldRow>
        <Field name="text" label={texts().remark} maxLength={500} reasons={reasons} />
        {event === 'flood' && <p class="advice">{CAUTIONS.flood}</p>}
        {event === 'disinfected' && <p class="advice">{CAUTIONS.disinfecting}</p>}
        {event === 'repair' && <p class="advice">{CAUTIONS.contamination}</p>}
      </ActionForm>
    </details>
  );
}
