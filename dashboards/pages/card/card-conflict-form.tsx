/**
 * Two people changed one card: what each made of it, field by field, and the choice between them.
 */
import { useState } from 'preact/hooks';
import type { CardConflict } from '../../../shared/card/differences.ts';
import { fieldLabel } from '../../../shared/card/fields.ts';
import { texts } from './texts.ts';

export interface CardConflictFormProps {
  fields: readonly CardConflict[];
  by: string | undefined;
  message: string;
  saving: boolean;
  /** With the keys of those fields that are to be yours. */
  resolve: (keepYours: ReadonlySet<string>) => void;
}

type Choice = 'theirs' | 'yours';

/**
 * Where only one of both changed a field, that change is taken unless somebody says otherwise;
 * where both did, a person chooses.
 */
export function CardConflictForm({ fields, by, message, saving, resolve }: CardConflictFormProps) {
  const [chosen, setChosen] = useState<Readonly<Record<string, Choice>>>(() =>
    Object.fromEntries(
      fields
        .filter(({ changedBy }) => changedBy !== 'both')
        .map(({ key, changedBy }) => [key, changedBy === 'you' ? 'yours' : 'theirs']),
    ),
  );
  const open = fields.filter(({ key }) => chosen[key] === undefined).length;
  const otherName = by ?? texts().otherPerson;
  return (
    <section class="sheet" aria-labelledby="conflict">
      <h2 id="conflict">{texts().twoVersionsOfThis}</h2>
      <p role="status">{message}</p>
      {fields.length === 0 && <p>{texts().bothTheSame}</p>}
      {fields.map((clash) => (
        <ConflictField
          key={clash.key}
          conflict={clash}
          otherName={otherName}
          chosen={chosen[clash.key]}
          choose={(choice) => setChosen((now) => ({ ...now, [clash.key]: choice }))}
        />
      ))}
      <button
        type="button"
        disabled={open > 0 || saving}
        onClick={() =>
          resolve(new Set(fields.filter(({ key }) => chosen[key] === 'yours').map(({ key }) => key)))
        }
      >
        {texts().saveChoice}
      </button>
      {open > 0 && <p class="secondary">{texts().chooseFields(open)}</p>}
    </section>
  );
}

function ConflictField(props: {
  conflict: CardConflict;
  otherName: string;
  chosen: Choice | undefined;
  choose: (choice: Choice) => void;
}) {
  const { conflict, otherName, chosen, choose } = props;
  const option = (choice: Choice, whose: string, text: string | undefined) => (
    <label>
      <input
        type="radio"
        name={`clash ${conflict.key}`}
        checked={chosen === choice}
        onChange={() => choose(choice)}
      />{' '}
      <span>
        {whose}: <b>{text ?? texts().nothing}</b>
      </span>
    </label>
  );
  return (
    <fieldset class="conflict">
      <legend>{fieldLabel(conflict.key)}</legend>
      {option('theirs', texts().versionOf(otherName), conflict.theirs)}
      {option('yours', texts().yourVersion, conflict.yours)}
    </fieldset>
  );
}
