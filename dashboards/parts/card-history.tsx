/** How a card came to be what it is: who changed what, and when, newest first. */
import { useState } from 'preact/hooks';
import type { CardChange } from '../../shared/card/changes.ts';
import type { Difference } from '../../shared/card/differences.ts';
import { fieldOf, labelOf } from '../../shared/card/fields.ts';
import { momentWords } from '../../shared/api/time-words.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { wordsOf } from '../words/card-form.ts';

/** So many are shown before somebody asks for the rest. */
const SHOWN = 10;
/** More fields than these at once are told by their number. */
const LISTED = 6;

export function CardHistory({ changes, timeZone }: { changes: readonly CardChange[]; timeZone: string }) {
  const { units } = useSurroundings();
  const [all, setAll] = useState(false);
  if (changes.length === 0) return <p class="said">Nobody has written a card of this well yet.</p>;
  const shown = all ? changes : changes.slice(0, SHOWN);
  return (
    <>
      <ol class="card-history">
        {shown.map((change) => (
          <li key={change.id}>
            <p>
              <b>{change.by ?? 'Nobody gave a name'}</b>
              <span class="doing">, {momentWords(change.atMs, timeZone, units, nowMs())}</span>
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
          <span class="doing">{labelOf(one.key)}:</span> <Told difference={one} />
        </li>
      ))}
    </ul>
  );
  if (changes.length <= LISTED) return list;
  return (
    <details>
      <summary>{changes.length} fields</summary>
      {list}
    </details>
  );
}

function Told({ difference: { key, before, after } }: { difference: Difference }) {
  const field = fieldOf(key);
  const say = (text: string): string => (field ? wordsOf(field, text) : text);
  if (before === undefined) return <b>{say(after ?? '')}</b>;
  if (after === undefined)
    return (
      <>
        <del>{say(before)}</del> taken out
      </>
    );
  return (
    <>
      <del>{say(before)}</del> is now <b>{say(after)}</b>
    </>
  );
}
