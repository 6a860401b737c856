/**
 * Water tests of a well as they can be compared: each result read again from how it was written, by
 * the day on which it was drawn.
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { readResult, type WaterResult, type WrittenResult } from '../../../shared/water/result.ts';
import { entriesOf, type Entry, type EntryOf } from '../../../shared/entries/entry.ts';

export interface WaterTest {
  entry: EntryOf<'water-test'>;
  /** ISO date of the sample in the well's own time zone. */
  sampleDate: string;
  results: { written: WrittenResult; result: WaterResult }[];
}

/**
 * Oldest first. A result that an older version kept and this one can't read is left out; the entry
 * still shows it as written.
 */
export function waterTests(entries: readonly Entry[], timeZone: string): WaterTest[] {
  return entriesOf(entries, 'water-test')
    .map((entry) => ({ entry, sampleDate: localDate(entry.atMs, timeZone), results: resultsOf(entry) }))
    .toSorted((a, b) => a.entry.atMs - b.entry.atMs);
}

function resultsOf({ body }: EntryOf<'water-test'>): WaterTest['results'] {
  return body.results.flatMap((written) => {
    const read = readResult(written);
    return 'result' in read ? [{ written, result: read.result }] : [];
  });
}
