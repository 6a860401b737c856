/** How a card came to be what it is: who changed what, and when, newest first. */
import { useState } from 'preact/hooks';
import type { CardChange } from '../../../shared/card/changes.ts';
import type { Difference } from '../../../shared/card/differences.ts';
import { fieldOf, fieldLabel } from '../../../shared/card/fields.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { wordsOf } from '../../words/card-form.ts';

/** So many are shown before somebody asks for the rest. */
const INITIAL_CHANGES = 10;
/** More fields than these at once are told by their number. */
const MAX_LISTED_FIELDS = 6;

export function CardHistory({ changes, timeZone }: { changes: readonly CardChange[]; timeZone: string }) {
  const { units } = useAppContext();
  const [all, setAll] = useState(false);
  if (changes.length === 0) return <p class="status">Nobody has written a card of this well yet.</p>;
  const shown = all ? changes : changes.slice(0, INITIAL_CHANGES);
  return (
    <>
      <ol class="card-history">
        {shown.map((change) => (
          <li key={change.id}>
            <p>
              <b>{change.by ?? 'Nobody gave a name'}</b>
              <span class="secondary">, {momentWords(change.atMs, timeZone, units, nowMs())}</span>
              {change.first && ': the first card'}
            </p>
            <Changes changes={change.changes} />
          </li>
        ))}
      </ol>
      {shown.length < changes.length && (
        <button type="button" class="quiet" onClick={() => setAll(true)}>
          Show all {changes.length} changes
        </button>
      )}
    </>
  );
}

/** A card that was filled in at one go is a long list; it opens when somebody wants it. */
function Changes({ changes }: { changes: readonly Difference[] }) {
  const list = (
    <ul>
      {changes.map((one) => (
        <li key={one.key}>
          <span class="secondary">{fieldLabel(one.key)}:</span> <DifferenceText difference={one} />
        </li>
      ))}
    </ul>
  );
  if (changes.length <= MAX_LISTED_FIELDS) return list;
  return (
    <details>
      <summary>{changes.length} fields</summary>
      {list}
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
        <del>{format(before)}</del> taken out
      </>
    );
  return (
    <>
      <del>{format(before)}</del> is now <b>{format(after)}</b>
    </>
  );
}
