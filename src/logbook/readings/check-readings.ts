/**
 * A check of the tank's air is a reading of it as well: as it was left where somebody changed it,
 * else as it was found. Who looks for the newest precharge must see both, or a label goes on
 * telling what was put right since.
 */
import type { Entry } from '../../../shared/entries/entry.ts';

/** Entries that count, with such checks among them as readings. */
export function withCheckReadings(entries: readonly Entry[]): Entry[] {
  return entries.map((entry) => {
    if (entry.kind !== 'check') return entry;
    const { check, outcome, value, left } = entry.body;
    const charge = left ?? value;
    if (check !== 'precharge' || outcome === 'not-done' || charge === undefined) return entry;
    return { ...entry, kind: 'reading', body: { what: 'precharge', value: charge } };
  });
}
