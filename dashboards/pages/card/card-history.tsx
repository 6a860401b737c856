/** How a card came to be what it is: who changed what, and when, newest first. */
import { useState } from 'preact/hooks';
import type { CardChange } from '../../../shared/card/changes.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { CardChanges } from '../../../shared/view/card-changes.tsx';
import { texts } from './texts.ts';

/** So many are shown before somebody asks for the rest. */
const INITIAL_CHANGES = 10;

export function CardHistory({ changes, timeZone }: { changes: readonly CardChange[]; timeZone: string }) {
  const { units } = useAppContext();
  const [all, setAll] = useState(false);
  if (changes.length === 0) return <p class="status">{texts().noHistory}</p>;
  const shown = all ? changes : changes.slice(0, INITIAL_CHANGES);
  return (
    <>
      <CardChanges changes={shown} when={(ms) => momentWords(ms, timeZone, units, nowMs())} />
      {shown.length < changes.length && (
        <button type="button" class="quiet" onClick={() => setAll(true)}>
          {texts().showAll(changes.length)}
        </button>
      )}
    </>
  );
}
