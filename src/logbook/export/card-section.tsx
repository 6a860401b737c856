/** The card as it was written last, and every change of it with who and when. */
import { cardChanges } from '../../../shared/card/changes.ts';
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { CardChanges } from '../../../shared/view/card-changes.tsx';
import { WrittenCard } from '../../../shared/view/written-card.tsx';
import type { ExportContext } from './context.ts';
import { lastCard } from './record.ts';

const TEXT = EXPORT_FILE_TEXT.card;

export function CardSection({ record, day, moment }: ExportContext) {
  const last = lastCard(record);
  if (!last) return <p>{TEXT.none}</p>;
  const { atMs, by } = last.act;
  const changes = cardChanges(record.acts);
  return (
    <>
      <p class="secondary">{TEXT.intro(day(atMs), by === undefined ? '' : EXPORT_FILE_TEXT.byName(by))}</p>
      <div class="card-facts">
        <WrittenCard card={last.card} />
      </div>
      {changes.length > 1 && (
        <>
          <h3>{TEXT.changes}</h3>
          <CardChanges changes={changes} when={moment} whole />
        </>
      )}
    </>
  );
}
