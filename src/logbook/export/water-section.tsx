/**
 * Water tests as the laboratory wrote them, each result beside the limits that held on the last day
 * that the record knows of.
 */
import { EXPORT_FILE_TEXT } from '../../../shared/text/en/pages/export-file.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import { YARDSTICK_NOTE } from '../../../shared/text/en/water-words.ts';
import { WaterTestSheet } from '../../../shared/view/water-test.tsx';
import { waterTestAnswers } from '../entries/water-answers.ts';
import { waterTests } from '../entries/water-tests.ts';
import type { ExportContext } from './context.ts';

export function WaterSection({ entries, card, timeZone, newestMs, day }: ExportContext) {
  const tests = waterTestAnswers(waterTests(entries, timeZone), {
    today: localDate(newestMs, timeZone),
    stock: card?.uses.includes('stock') ?? false,
  });
  if (tests.length === 0) return <p>{EXPORT_FILE_TEXT.none}</p>;
  return (
    <>
      <p class="secondary">
        {YARDSTICK_NOTE} {EXPORT_FILE_TEXT.water.note}
      </p>
      {tests.map((test) => (
        <WaterTestSheet key={test.id} test={test} day={(date) => day(Date.parse(`${date}T12:00:00Z`))} />
      ))}
    </>
  );
}
