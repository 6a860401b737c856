/**
 * Copies a laboratory's report: a line a result, each with what the report calls it, its value and
 * its unit. A line is read while it is typed, and says what it was taken for; what cannot be read
 * says why at its own field, and nothing typed is lost.
 */
import { useState } from 'preact/hooks';
import type { WaterAnswer } from '../../../shared/api/due.ts';
import { ANALYTE_KEYS, findAnalyte } from '../../../shared/water/analytes.ts';
import { readResult, type WrittenResult } from '../../../shared/water/result.ts';
import { offeredUnits, WATER_UNITS } from '../../../shared/water/water-units.ts';
import { entryMoment } from '../../../shared/notes/entry-day.ts';
import { amountText } from '../../../shared/text/en/water-text.ts';
import { Field, FieldRow, type Reasons } from '../../ui/field.tsx';
import { useEntryForm } from '../../ui/use-entry-form.ts';
import { PhotoField } from '../../ui/photo-field.tsx';
import { ActionForm, textOf } from '../../ui/action-form.tsx';
import { texts } from './texts.ts';
import { analyteName } from '../../../shared/text/en/logbook/analyte-names.ts';

interface WaterFormProps {
  well: string;
  value: WaterAnswer;
  changed: () => void;
}

/** A line of the form; its number stays with it, so that what is typed stays where it is. */
interface ResultRow {
  id: number;
  analyte: string;
}

/** The four of every year, and the one that laboratories add to coliform. */
const DEFAULT_ANALYTES = ['total-coliform', 'e-coli', 'nitrate', 'tds', 'ph'] as const;
const MAX_LINES = 200;

export function WaterForm({ well, value, changed }: WaterFormProps) {
  const [open, setOpen] = useState(false);
  return (
    <details class="more acts" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{texts().recordTest}</summary>
      {open && (
        <Form
          well={well}
          value={value}
          changed={() => {
            setOpen(false);
            changed();
          }}
        />
      )}
    </details>
  );
}

function Form({ well, value, changed }: WaterFormProps) {
  const [lines, setLines] = useState<ResultRow[]>(
    DEFAULT_ANALYTES.map((key, id) => ({ id, analyte: analyteName(key) })),
  );
  const { reasons, submit } = useEntryForm({
    well,
    about: texts().waterTest,
    read: (fields) => readForm(fields, lines, value),
  });
  return (
    <ActionForm class="action-form form" button={texts().saveResults} submit={submit} done={changed}>
      <FieldRow>
        <Field
          name="at"
          label={texts().sampleDate}
          type="date"
          defaultValue={value.today}
          max={value.today}
          reasons={reasons}
        />
        <Field name="laboratory" label={texts().laboratory} maxLength={120} reasons={reasons} />
        <Field name="place" label={texts().samplePoint} maxLength={120} reasons={reasons} />
        <Field
          name="why"
          label={texts().reason}
          maxLength={120}
          placeholder={texts().yearly}
          reasons={reasons}
        />
      </FieldRow>
      <p>{texts().formHelp}</p>
      <datalist id="analytes">
        {ANALYTE_KEYS.map((key) => (
          <option key={key} value={analyteName(key)} />
        ))}
      </datalist>
      {lines.map((line, at) => (
        <ResultLine key={line.id} line={line} at={at} reasons={reasons} />
      ))}
      <p>
        <button
          type="button"
          disabled={lines.length >= MAX_LINES}
          onClick={() => setLines([...lines, { id: (lines.at(-1)?.id ?? 0) + 1, analyte: '' }])}
        >
          {texts().addLine}
        </button>
      </p>
      <Field name="text" label={texts().remark} maxLength={500} reasons={reasons} />
      <PhotoField label={texts().reportPhoto} documents />
    </ActionForm>
  );
}

function ResultLine({ line, at, reasons }: { line: ResultRow; at: number; reasons: Reasons }) {
  const [written, setWritten] = useState<Required<WrittenResult>>({
    analyte: line.analyte,
    value: '',
    unit: defaultUnit(line.analyte),
  });
  const update = (part: keyof WrittenResult, text: string): void =>
    setWritten((now) => {
      const next = { ...now, [part]: text };
      // Another analyte brings its usual unit, as long as nobody chose one.
      return part === 'analyte' && now.unit === defaultUnit(now.analyte)
        ? { ...next, unit: defaultUnit(text) }
        : next;
    });
  const units = unitOptions(written.analyte);
  const list = `units-${line.id}`;
  return (
    <fieldset class="result">
      <legend class="unseen">{texts().result(at + 1)}</legend>
      <Field
        name={`analyte-${line.id}`}
        label={texts().analyte}
        defaultValue={line.analyte}
        list="analytes"
        maxLength={80}
        reasons={reasons}
        onInput={(text) => update('analyte', text)}
      />
      <Field
        name={`value-${line.id}`}
        label={texts().value}
        maxLength={40}
        reasons={reasons}
        onInput={(text) => update('value', text)}
      />
      <UnitField
        name={`unit-${line.id}`}
        value={written.unit}
        list={list}
        units={units}
        reason={reasons[`unit-${line.id}`]}
        setUnit={(text) => update('unit', text)}
      />
      <p class="secondary" aria-live="polite">
        {interpretationWords(written)}
      </p>
    </fieldset>
  );
}

function UnitField(props: {
  name: string;
  value: string;
  list: string;
  units: readonly string[];
  reason: string | undefined;
  setUnit: (text: string) => void;
}) {
  const { name, value, list, units, reason, setUnit } = props;
  return (
    <div class="field">
      <label>
        {texts().unit}{' '}
        <input
          type="text"
          name={name}
          value={value}
          list={list}
          maxLength={40}
          aria-invalid={reason === undefined ? undefined : true}
          onInput={(event) => setUnit(event.currentTarget.value)}
        />
      </label>
      <datalist id={list}>
        {units.map((unit) => (
          <option key={unit} value={unit} />
        ))}
      </datalist>
      {reason !== undefined && <p class="reason">{reason}</p>}
    </div>
  );
}

function unitOptions(name: string): string[] {
  const known = findAnalyte(name);
  return known ? offeredUnits(known.key) : WATER_UNITS.map((unit) => unit.name);
}

/**
 * Where the unit is never in doubt. An analyte that must say as what starts without one, so that
 * somebody looks.
 */
function defaultUnit(name: string): string {
  const known = findAnalyte(name);
  if (!known) return '';
  const units = offeredUnits(known.key);
  return units.some((unit) => unit.includes(' as ')) ? '' : (units[0] ?? '');
}

/** What the line says, or nothing as long as it has no value: nobody is corrected while typing. */
function interpretationWords(written: Required<WrittenResult>): string {
  const read = written.value.trim() === '' ? undefined : readResult(withUnit(written));
  if (!read || 'problem' in read) return '';
  const { is, value, unit, name, key, remark } = read.result;
  if (value === undefined) return texts().readAs(name, is === 'below' ? texts().notDetected : is);
  return texts().readAs(
    name,
    texts().readAmount({ is, amount: amountText(value, unit), hasLimits: key !== undefined, remark }),
  );
}

function withUnit({ unit, ...rest }: Required<WrittenResult>): WrittenResult {
  return unit.trim() === '' ? rest : { ...rest, unit };
}

function readForm(
  fields: FormData,
  lines: readonly ResultRow[],
  { timeZone, nowMs }: WaterAnswer,
): { entry: Record<string, unknown> } | { reasons: Reasons } {
  const reasons: Record<string, string> = {};
  const when = entryMoment(textOf(fields, 'at'), { timeZone, nowMs });
  if ('reason' in when) reasons['at'] = when.reason;
  const results = lines.flatMap(({ id }) => {
    const [analyte, value, unit] = ['analyte', 'value', 'unit'].map((part) =>
      textOf(fields, `${part}-${id}`),
    ) as [string, string, string];
    if (value === '') return [];
    const written = withUnit({ analyte, value, unit });
    const read = readResult(written);
    if ('problem' in read) reasons[`${read.problem.key}-${id}`] = capital(read.problem.rule);
    return [written];
  });
  if (results.length === 0) reasons[`value-${lines[0]?.id ?? 0}`] = texts().resultRequired;
  if ('reason' in when || Object.keys(reasons).length > 0) return { reasons };
  const optional = ['laboratory', 'place', 'why', 'text'].flatMap((name) => {
    const text = textOf(fields, name);
    return text === '' ? [] : [[name, text] as const];
  });
  return { entry: { kind: 'water-test', at: when.at, results, ...Object.fromEntries(optional) } };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
