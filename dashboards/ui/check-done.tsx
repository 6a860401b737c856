/**
 * Writes down that a check was done: how it was, its value as found and as left, a remark, photos
 * from the camera.
 */
import { useState } from 'preact/hooks';
import type { CheckRowAnswer, ChecksAnswer } from '../../shared/api/due.ts';
import { formatQuantity } from '../../shared/quantity/format-quantity.ts';
import { parseQuantity } from '../../shared/quantity/parse-quantity.ts';
import { OUTCOME_TEXT } from '../../shared/text/en/checks/due-words.ts';
import { useAppContext } from '../data/settings.ts';
import { entryMoment } from '../../shared/notes/entry-day.ts';
import { SelectField, Field, FieldRow, type Reasons } from './field.tsx';
import { useEntryForm } from './use-entry-form.ts';
import { PhotoField } from './photo-field.tsx';
import { ActionForm, textOf } from './action-form.tsx';
import { texts } from './texts.ts';

export interface CheckProps {
  check: CheckRowAnswer;
  value: ChecksAnswer;
  well: string;
  changed: () => void;
}

const EXAMPLE_KPA = 262;
const OUTCOMES = Object.entries(OUTCOME_TEXT);

export function CheckDone({ check, value, well, changed }: CheckProps) {
  const { source } = useAppContext();
  const [open, setOpen] = useState(false);
  if (!source.live) return null;
  return (
    <details class="more acts" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{texts().recordCheck}</summary>
      {open && (
        <DoneForm
          check={check}
          value={value}
          well={well}
          changed={() => {
            setOpen(false);
            changed();
          }}
        />
      )}
    </details>
  );
}

function DoneForm({ check, value, well, changed }: CheckProps) {
  const { units } = useAppContext();
  const example = formatQuantity(EXAMPLE_KPA, 'pressure', units);
  const { reasons, submit } = useEntryForm({
    well,
    about: check.title,
    read: (fields) => readCheckForm(fields, check, { ...value, example }),
  });
  return (
    <ActionForm class="action-form form" button={texts().save} submit={submit} done={changed}>
      <FieldRow>
        <SelectField name="outcome" label={texts().outcome} options={OUTCOMES} reasons={reasons} />
        <Field
          name="at"
          label={texts().date}
          type="date"
          defaultValue={value.today}
          max={value.today}
          reasons={reasons}
        />
      </FieldRow>
      {check.value && (
        <FieldRow>
          <Field
            name="value"
            label={check.value.question}
            placeholder={example}
            maxLength={40}
            reasons={reasons}
          />
          <Field
            name="left"
            label={texts().valueAsLeft}
            placeholder={example}
            maxLength={40}
            reasons={reasons}
          />
        </FieldRow>
      )}
      <Field name="text" label={texts().remark} maxLength={500} reasons={reasons} />
      <PhotoField label={texts().photo} />
    </ActionForm>
  );
}

/**
 * Looked through here, so that the reason stands at the field before anything is sent; the server
 * looks again.
 */
function readCheckForm(
  fields: FormData,
  check: CheckRowAnswer,
  { timeZone, nowMs, example }: ChecksAnswer & { example: string },
): { entry: Record<string, unknown> } | { reasons: Reasons } {
  const reasons: Record<string, string> = {};
  const when = entryMoment(textOf(fields, 'at'), { timeZone, nowMs });
  if ('reason' in when) reasons['at'] = when.reason;
  for (const name of ['value', 'left']) {
    const text = textOf(fields, name);
    const read = text === '' || !check.value ? undefined : parseQuantity(text, check.value.dimension);
    if (read && 'problem' in read) reasons[name] = texts().withExample(capital(read.problem), example);
  }
  if ('reason' in when || Object.keys(reasons).length > 0) return { reasons };
  const optional = ['value', 'left', 'text'].flatMap((name) => {
    const text = textOf(fields, name);
    return text === '' ? [] : [[name, text] as const];
  });
  return {
    entry: {
      kind: 'check',
      check: check.check,
      outcome: textOf(fields, 'outcome'),
      at: when.at,
      ...Object.fromEntries(optional),
    },
  };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
