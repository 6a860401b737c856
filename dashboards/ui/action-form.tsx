/**
 * A small form that tells the server one thing: its own fields, the name of who does it, one
 * button, and what came of it.
 */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { formatDuration } from '../../shared/text/en/format.ts';
import { rememberedName, rememberName, useAppContext } from '../data/settings.ts';
import { RequestError, type DataSource } from '../data/source.ts';
import { texts } from './texts.ts';

export interface ActionFormProps {
  button: string;
  /** Tells it; `by` is there only where a name was given. */
  submit: (source: DataSource, fields: FormData, actor: { by?: string }) => Promise<unknown>;
  done: () => void;
  /** What stands after it was done; nothing where the page itself shows it. */
  doneMessage?: string;
  class?: string;
  children?: ComponentChildren;
}

export function ActionForm(props: ActionFormProps) {
  const { source } = useAppContext();
  const [name, setName] = useState(rememberedName);
  const [message, setMessage] = useState('');
  const [submitting, setSubmitting] = useState(false);
  if (!source.live) return null;
  const handleSubmit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const form = event.currentTarget;
    setSubmitting(true);
    setMessage('');
    const by = name.trim();
    rememberName(by);
    try {
      await props.submit(source, new FormData(form), by === '' ? {} : { by });
      setMessage(props.doneMessage ?? '');
      props.done();
    } catch (error) {
      setMessage(error instanceof RequestError ? error.message : texts().actionFailed);
    }
    setSubmitting(false);
  };
  return (
    <form class={props.class ?? 'action-form'} onSubmit={(event) => void handleSubmit(event)}>
      {props.children}
      <label>
        {texts().yourName}{' '}
        <input
          type="text"
          autocomplete="name"
          maxLength={80}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </label>
      <button type="submit" disabled={submitting}>
        {props.button}
      </button>
      <p role="status">{message}</p>
    </form>
  );
}

/** A choice of how long; its value is in ms. */
export function DurationField({ label, optionsMs }: { label: string; optionsMs: readonly number[] }) {
  return (
    <label>
      {label}{' '}
      <select name="span">
        {optionsMs.map((ms) => (
          <option key={ms} value={ms}>
            {formatDuration(ms / 1000)}
          </option>
        ))}
      </select>
    </label>
  );
}

/** A field of the form as text. */
export function textOf(fields: FormData, name: string): string {
  const value = fields.get(name);
  return typeof value === 'string' ? value.trim() : '';
}
