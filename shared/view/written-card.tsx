/** A card on paper, where nobody can type: only what is filled in, section by section. */
import { digestOf, pumpsOf, sectionsOf, typedOf } from '../card/card-form.ts';
import { fieldLabel, fieldName } from '../card/fields.ts';
import { flatten } from '../card/flat-card.ts';
import { Facts, type Fact } from './facts.tsx';
import { texts } from './texts.ts';

export function WrittenCard({ card }: { card: Readonly<Record<string, unknown>> }) {
  const { well: _well, ...flat } = flatten(card);
  const typed = typedOf(flat);
  const sections = sectionsOf(flat, pumpsOf(flat));
  const inForm = new Set(sections.flatMap(({ fields }) => fields.map(({ key }) => key)));
  const others = Object.entries(flat).filter(([key]) => !inForm.has(key));
  return (
    <>
      {sections.map(({ title, fields }) => (
        <Section
          key={title}
          title={title}
          facts={fields.flatMap((field): Fact[] => {
            const text = digestOf({ title: '', parts: [], fields: [field] }, typed);
            return text === '' ? [] : [[fieldName(field.field), text]];
          })}
        />
      ))}
      <Section
        title={texts().otherFields}
        facts={others.map(([key, text]): Fact => [fieldLabel(key), text])}
      />
    </>
  );
}

function Section({ title, facts }: { title: string; facts: readonly Fact[] }) {
  if (facts.length === 0) return null;
  return (
    <div>
      <h3>{title}</h3>
      <Facts facts={facts} />
    </div>
  );
}
