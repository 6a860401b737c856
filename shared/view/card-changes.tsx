/** How a card came to be what it is: who changed what, and when. */
import type { ComponentChildren } from 'preact';
import { wordsOf } from '../card/card-form.ts';
import type { CardChange } from '../card/changes.ts';
import type { Difference } from '../card/differences.ts';
import { fieldLabel, fieldOf } from '../card/fields.ts';
import { texts } from './texts.ts';

/** More fields than these at once are told by their number. */
const MAX_LISTED_FIELDS = 6;

export function CardChanges(props: {
  changes: readonly CardChange[];
  when: (atMs: number) => string;
  /** Show long lists as well: on paper nobody can open one. */
  whole?: boolean;
}) {
  const { changes, when, whole = false } = props;
  return (
    <ol class="card-history">
      {changes.map((change) => (
        <li key={change.id}>
          <p>
            <b>{change.by ?? texts().noName}</b>
            <span class="secondary">, {when(change.atMs)}</span>
            {change.first && texts().firstCard}
          </p>
          <Folded count={whole ? 0 : change.changes.length}>
            <ul>
              {change.changes.map((one) => (
                <li key={one.key}>
                  <span class="secondary">{fieldLabel(one.key)}:</span> <DifferenceText difference={one} />
                </li>
              ))}
            </ul>
          </Folded>
        </li>
      ))}
    </ol>
  );
}

/** A card that was filled in at one go is a long list; it opens when somebody wants it. */
function Folded({ count, children }: { count: number; children: ComponentChildren }) {
  if (count <= MAX_LISTED_FIELDS) return <>{children}</>;
  return (
    <details>
      <summary>{texts().fields(count)}</summary>
      {children}
    </details>
  );
}

function DifferenceText({ difference: { key, before, after } }: { difference: Difference }) {
  const field = fieldOf(key);
  const format = (text: string): string => (field ? wordsOf(field, text) : text);
  if (before === undefined) return <b>{format(after ?? '')}</b>;
  if (after === undefined)
    return (
      <>
        <del>{format(before)}</del> {texts().removed}
      </>
    );
  return (
    <>
      <del>{format(before)}</del> {texts().changedTo} <b>{format(after)}</b>
    </>
  );
}
