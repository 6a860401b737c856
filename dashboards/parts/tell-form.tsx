/** A small form that tells the server one thing: its own fields, the name of who does it, one button, and what came of it. */
import type { ComponentChildren } from 'preact';
import { useState } from 'preact/hooks';
import { rememberedName, rememberName, useSurroundings } from '../data/settings.ts';
import { AskError, type DataSource } from '../data/source.ts';

export interface TellFormProps {
  button: string;
  /** Tells it; `by` is there only where a name was given. */
  tell: (source: DataSource, fields: FormData, who: { by?: string }) => Promise<unknown>;
  done: () => void;
  /** What stands after it was done; nothing where the page itself shows it. */
  doneWords?: string;
  class?: string;
  children?: ComponentChildren;
}

export function TellForm(props: TellFormProps) {
  const { source } = useSurroundings();
  const [name, setName] = useState(rememberedName);
  const [said, setSaid] = useState('');
  const [asking, setAsking] = useState(false);
  if (!source.live) return null;
  const submit = async (event: SubmitEvent): Promise<void> => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const form = event.currentTarget;
    setAsking(true);
    setSaid('');
    const by = name.trim();
    rememberName(by);
    try {
      await props.tell(source, new FormData(form), by === '' ? {} : { by });
      setSaid(props.doneWords ?? '');
      props.done();
    } catch (error) {
      setSaid(error instanceof AskError ? error.message : 'That did not work.');
    }
    setAsking(false);
  };
  return (
    <form class={props.class ?? 'tell'} onSubmit={(event) => void submit(event)}>
      {props.children}
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
        {props.button}
      </button>
      <p role="status">{said}</p>
    </form>
  );
}

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
export type Span = [ms: number, words: string];
export const HOURS: Span = [4 * HOUR_MS, '4 hours'];
export const DAY: Span = [DAY_MS, 'a day'];
export const DAYS: Span = [3 * DAY_MS, '3 days'];
export const WEEK: Span = [7 * DAY_MS, 'a week'];
export const MONTH: Span = [30 * DAY_MS, '30 days'];

/** A choice of how long; its value is in ms. */
export function SpanField({ label, spans }: { label: string; spans: readonly Span[] }) {
  return (
    <label>
      {label}{' '}
      <select name="span">
        {spans.map(([ms, words]) => (
          <option key={words} value={ms}>
            {words}
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
