/** What to bring: each part with what is known of it, and what nobody wrote down, to be asked for before the drive. */
import type { BringItemAnswer } from '../../shared/api/visits.ts';
import { BRING_ALWAYS, bringName, bringWords } from '../../shared/words/bring.ts';
import { unbroken } from '../../shared/words/names.ts';

export function BringList({ items }: { items: readonly BringItemAnswer[] }) {
  return (
    <>
      <p class="doing">{bringWords(items)}</p>
      <ul class="bring">
        {items.map((item) => (
          <li key={`${item.part} ${item.pump ?? ''}`}>
            <h3>{bringName(item)}</h3>
            {item.because.length > 0 && <p class="doing">For: {item.because.join('; ')}</p>}
            {item.known.length > 0 && <p>{unbroken(item.known.join(', '))}.</p>}
            {item.unknown.length > 0 && (
              <p class="unknown">Not known: {unbroken(item.unknown.join('; '))}.</p>
            )}
          </li>
        ))}
      </ul>
      <p>Always: {BRING_ALWAYS}</p>
    </>
  );
}
