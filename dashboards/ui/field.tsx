/**
 * One field of a form with the reason why it was refused beneath it; what was typed stays as it is.
 */
import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';

/** Reasons by the name of the field. */
export type Reasons = Readonly<Record<string, string>>;

interface InputProps {
  type?: 'text' | 'date';
  defaultValue?: string;
  placeholder?: string;
  maxLength?: number;
  min?: string;
  max?: string;
  inputMode?: 'numeric' | 'decimal';
  list?: string;
  required?: boolean;
  onInput?: (value: string) => void;
}

export function Field(
  props: InputProps & { name: string; label: string; reasons: Reasons; remark?: string; class?: string },
) {
  const { name, label, reasons, remark, class: className, type = 'text', onInput, ...input } = props;
  const reason = reasons[name];
  // Several forms of one page may have a field of this name.
  const reasonId = useId();
  return (
    <div class={`field ${className ?? ''}`}>
      <label>
        {label}{' '}
        <input
          {...input}
          type={type}
          onInput={(event) => onInput?.(event.currentTarget.value)}
          name={name}
          aria-invalid={reason === undefined ? undefined : true}
          aria-describedby={reason === undefined ? undefined : reasonId}
        />
      </label>
      {reason === undefined ? (
        remark !== undefined && <p class="secondary">{remark}</p>
      ) : (
        <p class="reason" id={reasonId}>
          {reason}
        </p>
      )}
    </div>
  );
}

/** A choice of words; its reason as above. */
export function SelectField(props: {
  name: string;
  label: string;
  options: readonly (readonly [value: string, words: string])[];
  chosen?: string;
  reasons?: Reasons;
  change?: (value: string) => void;
}) {
  const { name, label, options, chosen, reasons = {}, change } = props;
  return (
    <div class="field">
      <label>
        {label}{' '}
        <select name={name} defaultValue={chosen} onChange={(event) => change?.(event.currentTarget.value)}>
          {options.map(([value, words]) => (
            <option key={value} value={value} selected={value === chosen}>
              {words}
            </option>
          ))}
        </select>
      </label>
      {reasons[name] !== undefined && <p class="reason">{reasons[name]}</p>}
    </div>
  );
}

export function FieldRow({ children }: { children: ComponentChildren }) {
  return <div class="fields">{children}</div>;
}
