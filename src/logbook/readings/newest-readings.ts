/**
 * The newest reading of each kind that one pump has, on the card's list or not: what the sensors
 * usually read, or what a person brought later. One odd reading of a sensor never comes here: a
 * baseline is a median over days.
 */
import type { Baseline } from '../../core/baseline/baseline.ts';
import { withCheckReadings } from './check-readings.ts';
import { currentEntries, entriesOf, type Entry } from '../../../shared/entries/entry.ts';
import type { ReadingKind } from '../../../shared/entries/entry-fields.ts';
import { readingSi } from '../entries/read-reading.ts';

export interface MeasuredValue {
  /** In SI: kPa, A, m, L/s … as the reading's dimension is kept. */
  si: number;
  atMs: number;
  from: 'sensors' | 'hand';
}
export type MeasuredFacts = Partial<Record<ReadingKind, MeasuredValue>>;

export interface NewestReadingsInput {
  /** `p1`: a reading that names no pump is its. */
  pump: string;
  baseline: Baseline | undefined;
  /** All of the well, as they were written. */
  entries: readonly Entry[];
}

export function newestReadings({ pump, baseline, entries }: NewestReadingsInput): MeasuredFacts {
  const facts: MeasuredFacts = { ...(baseline && baselineReadings(baseline)) };
  for (const { atMs, body } of entriesOf(withCheckReadings(currentEntries(entries)), 'reading')) {
    if ((body.pump ?? 'p1') !== pump) continue;
    const read = readingSi(body);
    if (!read || (facts[read.what]?.atMs ?? -Infinity) > atMs) continue;
    facts[read.what] = { si: read.si, atMs, from: body.from ?? 'hand' };
  }
  return facts;
}

function baselineReadings({ atMs, amps, cutInKpa, cutOutKpa }: Baseline): MeasuredFacts {
  const from = 'sensors';
  return {
    ...(amps && { amps: { si: amps.median, atMs, from } }),
    ...(cutInKpa && { 'cut-in': { si: cutInKpa.median, atMs, from } }),
    ...(cutOutKpa && { 'cut-out': { si: cutOutKpa.median, atMs, from } }),
  };
}
