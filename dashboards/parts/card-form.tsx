/**
 * The form of a card: its sections closed, each with what stands in it. The whole card is saved upon the one that was opened. What was
 * typed stays where it is when it is refused, with the reason at its field; where somebody else was quicker, both are shown.
 */
import { useEffect, useRef, useState } from 'preact/hooks';
import { clashes, differences, merged, type Clash } from '../../shared/card/differences.ts';
import { labelOf } from '../../shared/card/fields.ts';
import { flatten, unflatten, type Flat } from '../../shared/card/flat.ts';
import type { Answer } from '../../shared/api/routes.ts';
import { rememberedName, rememberName, useSurroundings } from '../data/settings.ts';
import { AskError } from '../data/source.ts';
import { digestOf, flatOf, pumpsOf, sectionsOf, typedOf, withPump, type Typed } from '../words/card-form.ts';
import { CardClash } from './card-clash.tsx';
import { CardField, TimeZones } from './card-field.tsx';
import { CardPhotos } from './card-photos.tsx';

type Refused = Readonly<Record<string, string>>;

export interface CardFormProps {
  well: string;
  answer: Answer<'card'>;
  /** After it was saved. */
  saved: (answer: Answer<'card'>) => void;
}

export function CardForm({ well, answer, saved }: CardFormProps) {
  const { source } = useSurroundings();
  const [opened, setOpened] = useState(answer);
  const openedFlat = flatten(opened.card);
  const [typed, setTyped] = useState<Typed>(() => typedOf(openedFlat));
  const [pumps, setPumps] = useState(() => pumpsOf(openedFlat));
  const [name, setName] = useState(rememberedName);
  const [refused, setRefused] = useState<Refused>({});
  const [said, setSaid] = useState('');
  const [clash, setClash] = useState<{ theirs: Answer<'card'>; fields: Clash[] } | undefined>();
  const [saving, setSaving] = useState(false);
  const form = useRef<HTMLFormElement>(null);
  const changed = differences(openedFlat, { ...flatOf(typed), well });
  useLeaving(changed.length > 0);
  useEffect(() => {
    const first = form.current?.querySelector<HTMLElement>('[aria-invalid="true"]');
    first?.focus({ preventScroll: true });
    // With its name over it and the reason under it in sight.
    first?.scrollIntoView({ block: 'center' });
  }, [refused]);

  const take = (next: Answer<'card'>): void => {
    const flat = flatten(next.card);
    setOpened(next);
    setTyped(typedOf(flat));
    setPumps(pumpsOf(flat));
    setRefused({});
    setClash(undefined);
    setSaid('Kept.');
    saved(next);
  };
  const save = async (flat: Flat, basedOn: string | undefined): Promise<void> => {
    const by = name.trim();
    rememberName(by);
    setSaving(true);
    setSaid('');
    setRefused({});
    try {
      take(
        await source.tell(
          'writeCard',
          { well },
          {
            card: { ...unflatten(flat), well },
            ...(basedOn !== undefined && { basedOn }),
            ...(by !== '' && { by }),
          },
        ),
      );
    } catch (error) {
      await explain(error, flat);
    }
    setSaving(false);
  };
  const explain = async (error: unknown, yours: Flat): Promise<void> => {
    if (!(error instanceof AskError)) return setSaid('That did not work. What you typed is still here.');
    if (error.status === 409) {
      const theirs = await source.ask('card', { well }).catch(() => undefined);
      if (theirs) setClash({ theirs, fields: clashes(openedFlat, flatten(theirs.card), yours) });
      return setSaid(error.message);
    }
    setRefused(Object.fromEntries(error.fields.map(({ at, rule }) => [at, rule])));
    setSaid(error.fields.length === 0 ? error.message : notKept(error.fields.length));
  };
  const settle = (keepYours: ReadonlySet<string>): void => {
    if (!clash) return;
    const flat = merged(flatten(clash.theirs.card), { ...flatOf(typed), well }, keepYours);
    setOpened(clash.theirs);
    setTyped(typedOf(flat));
    setPumps(pumpsOf(flat));
    setClash(undefined);
    void save(flat, clash.theirs.act);
  };
  const another = (): void => {
    const more = withPump(typed, pumps);
    setTyped(more.typed);
    setPumps(more.pumps);
  };
  const sections = sectionsOf(openedFlat, pumps);
  const shownKeys = sections.flatMap(({ fields }) => fields.map(({ key }) => key));
  const elsewhere = Object.entries(refused).filter(([key]) => !shownKeys.includes(key));

  if (clash)
    return (
      <CardClash fields={clash.fields} by={clash.theirs.by} said={said} settle={settle} saving={saving} />
    );
  return (
    <form
      class="card-form"
      ref={form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void save({ ...flatOf(typed), well }, opened.act);
      }}
    >
      <TimeZones />
      {sections.map((section) => {
        const wrong = section.fields.some(({ key }) => refused[key] !== undefined);
        return (
          <details key={section.title} class="more" {...(wrong && { open: true })}>
            <summary>
              {section.title} <span class="digest">{digestOf(section, typed) || 'nothing written'}</span>
            </summary>
            {section.about !== undefined && <p class="doing">{section.about}</p>}
            <div class="fields">
              {section.fields.map(({ field, key }) =>
                key === 'electrical.photos' ? (
                  <CardPhotos
                    key={key}
                    well={well}
                    text={typed[key] ?? ''}
                    refused={refused[key]}
                    change={(text) => setTyped((now) => ({ ...now, [key]: text }))}
                  />
                ) : (
                  <CardField
                    key={key}
                    id={key}
                    field={field}
                    text={typed[key] ?? ''}
                    refused={refused[key]}
                    type={(text) => setTyped((now) => ({ ...now, [key]: text }))}
                  />
                ),
              )}
            </div>
          </details>
        );
      })}
      <p>
        <button type="button" class="quiet" onClick={another}>
          This well has another pump
        </button>
      </p>
      {elsewhere.map(([key, rule]) => (
        <p key={key} class="refused">
          {labelOf(key)} {rule}
        </p>
      ))}
      <div class="field">
        <label for="card-by">Your name</label>
        <input
          id="card-by"
          type="text"
          autocomplete="name"
          maxLength={80}
          value={name}
          onInput={(event) => setName(event.currentTarget.value)}
        />
      </div>
      <div class="save">
        <button type="submit" disabled={saving || changed.length === 0}>
          Save the card
        </button>
        <p role="status">
          {said ||
            (changed.length > 0 &&
              `${changed.length === 1 ? '1 field' : `${changed.length} fields`} changed, not saved yet.`)}
        </p>
      </div>
    </form>
  );
}

/** The reasons stand at their fields; here is only that there are some. */
function notKept(fields: number): string {
  return `Not kept: ${fields === 1 ? 'one field can’t be so, and says why' : `${fields} fields can’t be so, and say why`}. Nothing is lost.`;
}

/** A page that is closed with something typed and not saved asks first. */
function useLeaving(unsaved: boolean): void {
  useEffect(() => {
    if (!unsaved) return undefined;
    const ask = (event: BeforeUnloadEvent): void => event.preventDefault();
    window.addEventListener('beforeunload', ask);
    return () => window.removeEventListener('beforeunload', ask);
  }, [unsaved]);
}
