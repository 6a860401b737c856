/**
 * One field of the card: its name, an example of how it is written, and why it was refused where it
 * was.
 */
import type { Field } from '../../shared/card/fields.ts';
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import { useAppContext } from '../data/settings.ts';
import { texts } from './texts.ts';

export interface FieldProps {
  field: Field;
  /** The field's key on this card, and its id on the page. */
  id: string;
  text: string;
  refused: string | undefined;
  onInput: (text: string) => void;
}

export function CardField(props: FieldProps) {
  const { field, id, refused } = props;
  if (field.multiple) return <ManyField {...props} />;
  return (
    <div class="field">
      <label for={id}>{field.label}</label>
      <Input {...props} />
      {field.hint !== undefined && <p class="secondary">{field.hint}</p>}
      {refused !== undefined && (
        <p class="refused" id={`${id}-refused`}>
          {refused}
        </p>
      )}
    </div>
  );
}

function Input({ field, id, text, refused, onInput }: FieldProps) {
  const { units } = useAppContext();
  const inputProps = {
    id,
    name: id,
    ...(refused !== undefined && { 'aria-invalid': true, 'aria-describedby': `${id}-refused` }),
  };
  const handleInput = (event: { currentTarget: { value: string } }): void =>
    onInput(event.currentTarget.value);
  if (field.choices)
    return (
      <select {...inputProps} value={text} onChange={handleInput}>
        <option value="">{texts().notChosen}</option>
        {field.choices.map(([value, words]) => (
          <option key={value} value={value}>
            {words}
          </option>
        ))}
        {text !== '' && !field.choices.some(([value]) => value === text) && (
          <option value={text}>{text}</option>
        )}
      </select>
    );
  const placeholder = exampleOf(field, units);
  if (field.multiline)
    return <textarea {...inputProps} rows={3} placeholder={placeholder} value={text} onInput={handleInput} />;
  return (
    <input
      {...inputProps}
      type="text"
      maxLength={200}
      autocomplete="off"
      autocapitalize="none"
      placeholder={placeholder}
      value={text}
      onInput={handleInput}
      {...(field.key === 'timeZone' && { list: 'time-zones' })}
    />
  );
}

function ManyField({ field, id, text, refused, onInput }: FieldProps) {
  const chosen = text.split(/[;,]/).map((one) => one.trim());
  const change = (value: string, on: boolean): void =>
    onInput(
      (field.choices ?? [])
        .flatMap(([one]) => ((one === value ? on : chosen.includes(one)) ? [one] : []))
        .join('; '),
    );
  return (
    <fieldset class="card-many" id={id}>
      <legend>{field.label}</legend>
      {field.choices?.map(([value, words]) => (
        <label key={value}>
          <input
            type="checkbox"
            checked={chosen.includes(value)}
            onChange={(event) => change(value, event.currentTarget.checked)}
          />{' '}
          {words}
        </label>
      ))}
      {refused !== undefined && <p class="refused">{refused}</p>}
    </fieldset>
  );
}

function exampleOf({ example }: Field, units: UnitSystem): string {
  if (example === undefined) return '';
  return typeof example === 'string' ? example : example[units === 'us' ? 0 : 1];
}

/** All zones that the browser knows, to choose from while typing. */
export function TimeZones() {
  return (
    <datalist id="time-zones">
      {Intl.supportedValuesOf('timeZone').map((zone) => (
        <option key={zone} value={zone} />
      ))}
    </datalist>
  );
}
