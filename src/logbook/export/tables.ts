/**
 * Tables for people who work with spreadsheets. Numbers are SI with the unit in the column's name;
 * what was not measured is empty. What was written to the letter stands in the record.
 */
import { writeCsv } from '../csv.ts';
import type { WellRecord } from './record.ts';

const CYCLE_KEYS = [
  'pump',
  'started',
  'stopped',
  'ranS',
  'restedS',
  'amps',
  'amps2',
  'amps3',
  'startAmps',
  'cutInKpa',
  'cutOutKpa',
  'riseDelayS',
  'deliveredL',
  'energyWh',
] as const;
const DAY_KEYS = ['date', 'pump', 'cycles', 'ranS', 'heardS', 'ampsMedian', 'usedL', 'leakLPerDay'] as const;

export function cyclesCsv({ cycles }: WellRecord): string {
  return writeCsv([
    [...CYCLE_KEYS, 'flags'],
    ...cycles.map(({ event }) => [...CYCLE_KEYS.map((key) => event[key]), event.flags.join(' ')]),
  ]);
}

export function daysCsv({ days }: WellRecord): string {
  return writeCsv([DAY_KEYS, ...days.map(({ event }) => DAY_KEYS.map((key) => event[key]))]);
}

/** `body` is JSON, as it was written. */
export function entriesCsv({ entries }: WellRecord): string {
  const at = (ms: number): string => new Date(ms).toISOString();
  return writeCsv([
    ['id', 'kind', 'at', 'written', 'by', 'replaces', 'body'],
    ...entries.map((e) => [
      e.id,
      e.kind,
      at(e.atMs),
      at(e.createdMs),
      e.by,
      e.replaces,
      JSON.stringify(e.body),
    ]),
  ]);
}
