/**
 * Checks that were done, newest first, and the schedules that people set of their own.
 */
import { entriesOf, type EntryOf } from '../../../shared/entries/entry.ts';
import { DUE_WORDS, isDueKind, OUTCOME_TEXT } from '../../../shared/text/en/checks/due-words.ts';
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { Table } from '../../../shared/view/table.tsx';
import { latestPlans } from '../due/check-plans.ts';
import type { ExportContext } from './context.ts';
import { formatValue, humanizeKey } from './key-names.ts';

const TEXT = EXPORT_FILE_TEXT.checks;

export function ChecksSection({ entries, day }: ExportContext) {
  const plans = latestPlans(entries);
  const titleOf = (check: string): string =>
    plans.get(check)?.title ?? (isDueKind(check) ? DUE_WORDS[check].title : humanizeKey(check));
  const done = entriesOf(entries, 'check').toReversed();
  const planned = entriesOf(entries, 'check-plan').toReversed();
  if (done.length + planned.length === 0) return <p>{EXPORT_FILE_TEXT.none}</p>;
  return (
    <>
      <Table
        head={TEXT.head}
        rows={done.map(({ atMs, by, body }) => ({
          cells: [
            day(atMs),
            titleOf(body.check),
            OUTCOME_TEXT[body.outcome],
            measuredText(body),
            body.text,
            by,
          ],
        }))}
      />
      {planned.length > 0 && <h3>{TEXT.plans}</h3>}
      <Table
        head={TEXT.planHead}
        rows={planned.map(({ createdMs, by, body: { check, title: _title, ...schedule } }) => ({
          cells: [titleOf(check), formatValue(schedule), day(createdMs), by],
        }))}
      />
    </>
  );
}

function measuredText({ value, left }: EntryOf<'check'>['body']): string {
  return [value, left === undefined ? undefined : TEXT.left(left)].filter(Boolean).join(', ');
}
