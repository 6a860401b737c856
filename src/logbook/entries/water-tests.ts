/**
 * Water tests of a well as they can be compared: each result read again from how it was written, by
 * the day on which it was drawn.
 */
import { localDate } from '../../../shared/text/en/time-words.ts';
import { readResult, type WaterResult, type WrittenResult } from '../../../shared/water/result.ts';
import type { StoredEntry } from './entry.ts';
import { writtenResult } from './read-water-test.ts';

export interface WaterTest {
  entry: StoredEntry;
  /** ISO date of the sample in the well's own time zone. */
  sampleDate: string;
  results: { written: WrittenResult; result: WaterResult }[];
}

/**
 * Oldest first. A result that an older version kept and this one can't read is left out; the entry
 * still shows it as written.
 */
export function waterTests(entries: readonly StoredEntry[], timeZone: string): WaterTest[] {
  return entries
    .filter(({ kind }) => kind === 'water-test')
    .map((entry) => ({ entry, sampleDate: localDate(entry.atMs, timeZone), results: resultsOf(entry) }))
    .toSorted((a, b) => a.entry.atMs - b.entry.atMs);
}

function resultsOf({ body }: StoredEntry): WaterTest['results'] {
  const listed: unknown[] = Array.isArray(body['results']) ? body['results'] : [];
  return listed.flatMap((one) => {
    const written = writtenResult(one);
    const read = written && readResult(written);
    return written && read && 'result' in read ? [{ written, result: read.result }] : [];
  });
}
