/**
 * What to bring: each part with what is known of it, and what nobody wrote down, to be asked for
 * before the drive.
 */
import type { PartsListItemAnswer } from '../../../shared/api/visits.ts';
import {
  PARTS_LIST_ALWAYS,
  partsListItemText,
  partsListReason,
} from '../../../shared/text/en/checks/parts-list.ts';
import { withNonBreakingUnits } from '../../../shared/text/en/names.ts';
import { texts } from './texts.ts';

export function PartsList({ items }: { items: readonly PartsListItemAnswer[] }) {
  return (
    <>
      <p class="secondary">{partsListReason(items)}</p>
      <ul class="parts-list">
        {items.map((item) => (
          <li key={`${item.part} ${item.pump ?? ''}`}>
            <h3>{partsListItemText(item)}</h3>
            {item.reasons.length > 0 && <p class="secondary">{texts().for(item.reasons.join('; '))}</p>}
            {item.known.length > 0 && <p>{withNonBreakingUnits(item.known.join(', '))}.</p>}
            {item.unknown.length > 0 && (
              <p class="unknown">{texts().unknown(withNonBreakingUnits(item.unknown.join('; ')))}</p>
            )}
          </li>
        ))}
      </ul>
      <p>{texts().always(PARTS_LIST_ALWAYS)}</p>
    </>
  );
}
