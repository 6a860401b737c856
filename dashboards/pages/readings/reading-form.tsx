/**
 * Readings that a person brings: what, its value with the unit, when, with what. Flow is calculated
 * from the bucket and the watch.
 */
import { useState } from 'preact/hooks';
import { localDate } from '../../../shared/text/en/time-words.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { localToUtcMs } from '../../../shared/notes/local-moment.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { LEAD_PAIRS } from '../../../shared/entries/entry-fields.ts';
import {
  CAPACITOR_WORDS,
  LEADS_WORDS,
  MOTOR_PLACE_WORDS,
} from '../../../shared/text/en/checks/motor-readings.ts';
import { READING_WORDS, type ReadingName } from '../../../shared/text/en/checks/reading-words.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { bucketFlow, type Bucket } from '../../../shared/quantity/bucket-flow.ts';
import { FlowFields } from './flow-fields.tsx';
import { uploadPhotos, documentsField, PhotoField } from '../../ui/photo-field.tsx';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';

export interface ReadingFormProps {
  detail: WellDetail;
  readingNames: readonly ReadingName[];
  /** What stands about photos; those of a box are for who has it open. */
  photoWords?: string;
  changed: () => void;
}

/**
 * The form is made anew after each reading that was kept; one that was refused stays as it was
 * typed.
 */
export function ReadingForm(props: ReadingFormProps) {
  const [round, setRound] = useState(0);
  return (
    <>
      <OneReading
        key={round}
        {...props}
        changed={() => {
          setRound(round + 1);
          props.changed();
        }}
      />
      <p role="status">{round > 0 && texts().savedBelow}</p>
    </>
  );
}

/** What a person reads beside the tank, which may stand in a pit. */
const AT_THE_GAUGE: readonly ReadingName[] = ['precharge', 'cut-in', 'cut-out'];

function OneReading({ detail, readingNames, photoWords, changed }: ReadingFormProps) {
  const { units } = useAppContext();
  const { well, timeZone } = detail.well;
  const [what, setWhat] = useState<ReadingName>(readingNames[0] ?? 'amps');
  const [bucket, setBucket] = useState<Bucket>({ volume: '', time: '' });
  const words = READING_WORDS[what];
  const flow = what === 'flow' ? bucketFlow(bucket) : undefined;
  return (
    <ActionForm
      class="card-form"
      button={texts().save}
      submit={async (to, fields, actor) => {
        const photos = await uploadPhotos(to, fields, { well, about: 'reading', ...actor });
        const entry = entryOf(fields, { what, timeZone, photos, ...(flow && { value: flow.text, bucket }) });
        await to.post('writeEntry', { well }, { entry, ...actor });
      }}
      done={changed}
    >
      <ReadingNameField readingNames={readingNames} what={what} choose={setWhat} />
      {words.instructions !== undefined && <p class="secondary">{words.instructions}</p>}
      {what === 'precharge' && <p class="secondary">{CAUTIONS['tank-pressure']}</p>}
      {AT_THE_GAUGE.includes(what) && <p class="secondary">{CAUTIONS['well-pit']}</p>}
      {what === 'flow' && <FlowFields bucket={bucket} flow={flow} change={setBucket} />}
      {!flow && (
        <label class="field">
          {texts().value}
          <input
            type="text"
            name="value"
            maxLength={40}
            placeholder={words.examples[units === 'us' ? 0 : 1]}
            required
          />
        </label>
      )}
      <MotorFields what={what} />
      <Circumstances detail={detail} what={what} />
      <label class="tick">
        <input type="checkbox" name="pinned" /> {texts().pin}
      </label>
      {photoWords !== undefined && <p class="secondary">{photoWords}</p>}
      <PhotoField label={texts().photos} />
    </ActionForm>
  );
}

function ReadingNameField(props: {
  readingNames: readonly ReadingName[];
  what: ReadingName;
  choose: (what: ReadingName) => void;
}) {
  const { readingNames, what, choose } = props;
  return (
    <label class="field">
      {texts().what}
      <select
        value={what}
        onChange={(event) => {
          const chosen = readingNames.find((one) => one === event.currentTarget.value);
          if (chosen) choose(chosen);
        }}
      >
        {readingNames.map((one) => (
          <option key={one} value={one}>
            {READING_WORDS[one].title}
          </option>
        ))}
      </select>
    </label>
  );
}

function placeExample(what: ReadingName): string | undefined {
  const examples: Partial<Record<ReadingName, string>> = texts().placeExamples;
  return examples[what];
}

/** Which leads, where the motor is, which capacitor. */
function MotorFields({ what }: { what: ReadingName }) {
  const leads = Object.entries(LEADS_WORDS).filter(
    ([key]) => LEAD_PAIRS.some((pair) => pair === key) === (what === 'winding'),
  );
  if (what === 'capacitor')
    return <Choice name="capacitor" label={texts().which} options={Object.entries(CAPACITOR_WORDS)} />;
  if (what !== 'winding' && what !== 'insulation') return null;
  return (
    <div class="fields">
      <Choice name="leads" label={texts().leads} options={leads} />
      <Choice name="motor" label={texts().motor} options={Object.entries(MOTOR_PLACE_WORDS)} />
    </div>
  );
}

function Choice(props: { name: string; label: string; options: readonly [string, string][] }) {
  const { name, label, options } = props;
  return (
    <label class="field">
      {label}
      <select name={name}>
        <option value="">{texts().notSaid}</option>
        {options.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Of which pump, when, where and with what. */
function Circumstances({ detail, what }: { detail: WellDetail; what: ReadingName }) {
  return (
    <>
      <div class="fields">
        {detail.pumps.length > 1 && (
          <label class="field">
            {texts().pump}
            <select name="pump">
              <option value="">{texts().wholeWell}</option>
              {detail.pumps.map(({ pump }) => (
                <option key={pump} value={pump}>
                  {pump.slice(1)}
                </option>
              ))}
            </select>
          </label>
        )}
        <label class="field">
          {texts().date}
          <input type="date" name="date" max={localDate(nowMs(), detail.well.timeZone)} />
        </label>
        <label class="field">
          {texts().location}
          <input type="text" name="where" maxLength={120} placeholder={placeExample(what)} />
        </label>
        <label class="field">
          {texts().instrument}
          <input type="text" name="with" maxLength={120} />
        </label>
      </div>
      <label class="field">
        {texts().remark}
        <input type="text" name="text" maxLength={2000} />
      </label>
    </>
  );
}

interface EntryParams {
  what: ReadingName;
  timeZone: string;
  photos: readonly string[];
  /** Calculated from the bucket. */
  value?: string;
  bucket?: Bucket;
}

const OPTIONAL_FIELDS = ['pump', 'where', 'with', 'text', 'leads', 'motor', 'capacitor'];

function entryOf(fields: FormData, params: EntryParams): Record<string, unknown> {
  const { what, timeZone, photos, bucket } = params;
  const date = textOf(fields, 'date');
  const at = date === '' ? undefined : entryTime(date, timeZone);
  const optional = OPTIONAL_FIELDS.map((name) => [name, textOf(fields, name)] as const);
  return {
    kind: 'reading',
    what,
    value: params.value ?? textOf(fields, 'value'),
    from: 'hand',
    ...Object.fromEntries(optional.filter(([, value]) => value !== '')),
    ...(bucket && { bucket }),
    ...(at !== undefined && { at }),
    ...(fields.get('pinned') !== null && { pinned: true }),
    ...documentsField(photos),
  };
}

/** A day is written as its noon there; today as now. */
function entryTime(date: string, timeZone: string): string | undefined {
  const [year, month, day] = date.split('-').map(Number);
  if (year === undefined || month === undefined || day === undefined) return undefined;
  if (date === localDate(nowMs(), timeZone)) return undefined;
  return new Date(localToUtcMs({ year, month, day, hour: 12, minute: 0 }, timeZone)).toISOString();
}
