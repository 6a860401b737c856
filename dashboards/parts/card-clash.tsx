/** Two people changed one card: what each made of it, field by field, and the choice between them. */
import { useState } from 'preact/hooks';
import type { Clash } from '../../shared/card/differences.ts';
import { labelOf } from '../../shared/card/fields.ts';

export interface CardClashProps {
  fields: readonly Clash[];
  by: string | undefined;
  said: string;
  saving: boolean;
  /** With the keys of those fields that are to be yours. */
  settle: (keepYours: ReadonlySet<string>) => void;
}

type Choice = 'theirs' | 'yours';

/** Where only one of both changed a field, that change is taken unless somebody says otherwise; where both did, a person chooses. */
export function CardClash({ fields, by, said, saving, settle }: CardClashProps) {
  const [chosen, setChosen] = useState<Readonly<Record<string, Choice>>>(() =>
    Object.fromEntries(
      fields
        .filter(({ changedBy }) => changedBy !== 'both')
        .map(({ key, changedBy }) => [key, changedBy === 'you' ? 'yours' : 'theirs']),
    ),
  );
  const open = fields.filter(({ key }) => chosen[key] === undefined).length;
  const who = by ?? 'the other';
  return (
    <section class="sheet" aria-labelledby="clash">
      <h2 id="clash">Two cards, and one well</h2>
      <p role="status">{said}</p>
      {fields.length === 0 && <p>Both say the same now.</p>}
      {fields.map((clash) => (
        <ClashField
          key={clash.key}
          clash={clash}
          who={who}
          chosen={chosen[clash.key]}
          choose={(choice) => setChosen((now) => ({ ...now, [clash.key]: choice }))}
        />
      ))}
      <button
        type="button"
        disabled={open > 0 || saving}
        onClick={() =>
          settle(new Set(fields.filter(({ key }) => chosen[key] === 'yours').map(({ key }) => key)))
        }
      >
        Save it so
      </button>
      {open > 0 && (
        <p class="doing">
          Choose in {open === 1 ? 'the field' : `the ${open} fields`} that you both changed.
        </p>
      )}
    </section>
  );
}

function ClashField(props: {
  clash: Clash;
  who: string;
  chosen: Choice | undefined;
  choose: (choice: Choice) => void;
}) {
  const { clash, who, chosen, choose } = props;
  const option = (choice: Choice, whose: string, text: string | undefined) => (
    <label>
      <input
        type="radio"
        name={`clash ${clash.key}`}
        checked={chosen === choice}
        onChange={() => choose(choice)}
      />{' '}
      <span>
        {whose}: <b>{text ?? 'nothing'}</b>
      </span>
    </label>
  );
  return (
    <fieldset class="clash">
      <legend>{labelOf(clash.key)}</legend>
      {option('theirs', `What ${who} wrote`, clash.theirs)}
      {option('yours', 'What you wrote', clash.yours)}
    </fieldset>
  );
}
