/**
 * The form of a card: its sections closed, each with what stands in it. What was typed stays where
 * it is when it is refused, with the reason at its field; where somebody else was quicker, both are
 * shown.
 */
import { useEffect, useRef } from 'preact/hooks';
import { fieldLabel } from '../../../shared/card/fields.ts';
import type { Answer } from '../../../shared/api/routes.ts';
import { digestOf, sectionsOf, type ShownField, type ShownSection } from '../../../shared/card/card-form.ts';
import { CardConflictForm } from './card-conflict-form.tsx';
import { CardField, TimeZones } from '../../ui/card-field.tsx';
import { CardPhotos } from './card-photos.tsx';
import { PartLinks } from '../../ui/part-links.tsx';
import { useCard, type UseCard } from './use-card.ts';
import { texts } from './texts.ts';

export interface CardFormProps {
  well: string;
  answer: Answer<'card'>;
  /** After it was saved. */
  saved: (answer: Answer<'card'>) => void;
}

export function CardForm({ well, answer, saved }: CardFormProps) {
  const card = useCard(well, answer, saved);
  const { refused, conflict, baseFlat, pumps } = card;
  const form = useRef<HTMLFormElement>(null);
  useUnsavedWarning(card.changed > 0);
  useEffect(() => {
    const first = form.current?.querySelector<HTMLElement>('[aria-invalid="true"]');
    first?.focus({ preventScroll: true });
    // With its name over it and the reason under it in sight.
    first?.scrollIntoView({ block: 'center' });
  }, [refused]);
  if (conflict)
    return (
      <CardConflictForm
        fields={conflict.fields}
        by={conflict.theirs.by}
        message={card.message}
        resolve={card.resolve}
        saving={card.saving}
      />
    );
  const sections = sectionsOf(baseFlat, pumps);
  const shown = sections.flatMap(({ fields }) => fields.map(({ key }) => key));
  const elsewhere = Object.entries(refused).filter(([key]) => !shown.includes(key));
  return (
    <form
      class="card-form"
      ref={form}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        card.save();
      }}
    >
      <TimeZones />
      {sections.map((section) => (
        <FormSection key={section.title} well={well} section={section} card={card} />
      ))}
      <p>
        <button type="button" class="quiet" onClick={card.addPump}>
          {texts().addPump}
        </button>
      </p>
      {elsewhere.map(([key, rule]) => (
        <p key={key} class="refused">
          {fieldLabel(key)} {rule}
        </p>
      ))}
      <SaveBar card={card} />
    </form>
  );
}

interface SectionProps {
  well: string;
  card: UseCard;
}

function FormSection({ section, ...props }: SectionProps & { section: ShownSection }) {
  const { typed, refused } = props.card;
  const wrong = section.fields.some(({ key }) => refused[key] !== undefined);
  return (
    <details class="more" {...(wrong && { open: true })}>
      <summary>
        {section.title} <span class="digest">{digestOf(section, typed) || texts().nothingEntered}</span>
      </summary>
      {section.about !== undefined && <p class="secondary">{section.about}</p>}
      <PartLinks lead={texts().partsHelp} parts={section.parts} />
      <div class="fields">
        {section.fields.map((field) => (
          <FormField key={field.key} shown={field} {...props} />
        ))}
      </div>
    </details>
  );
}

function FormField({ well, card, shown: { field, key } }: SectionProps & { shown: ShownField }) {
  const fieldProps = { text: card.typed[key] ?? '', refused: card.refused[key] };
  const onInput = (text: string): void => card.setField(key, text);
  return field.key === 'electrical.photos' ? (
    <CardPhotos well={well} change={onInput} {...fieldProps} />
  ) : (
    <CardField id={key} field={field} onInput={onInput} {...fieldProps} />
  );
}

function SaveBar({ card: { by, setBy, saving, changed, message, revert } }: { card: UseCard }) {
  const unsaved = changed > 0 && texts().unsavedFields(changed);
  return (
    <>
      <div class="field">
        <label for="card-by">{texts().yourName}</label>
        <input
          id="card-by"
          type="text"
          autocomplete="name"
          maxLength={80}
          value={by}
          onInput={(event) => setBy(event.currentTarget.value)}
        />
      </div>
      <div class="save">
        <button type="submit" disabled={saving || changed === 0}>
          {texts().saveCard}
        </button>
        {changed > 0 && (
          <button type="button" class="quiet" disabled={saving} onClick={revert}>
            {texts().undo}
          </button>
        )}
        <p role="status">{message || unsaved}</p>
      </div>
    </>
  );
}

/** A page that is closed with something typed and not saved asks first. */
function useUnsavedWarning(unsaved: boolean): void {
  useEffect(() => {
    if (!unsaved) return undefined;
    const confirmLeave = (event: BeforeUnloadEvent): void => event.preventDefault();
    window.addEventListener('beforeunload', confirmLeave);
    return () => window.removeEventListener('beforeunload', confirmLeave);
  }, [unsaved]);
}
