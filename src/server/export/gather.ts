/**
 * All that is kept of a well, put together for handing it over: what was made here, and what was
 * handed over to us. A day in which nothing was heard says nothing and is left out, so that a well
 * that only rests in our store is the same record whenever it is asked for.
 */
import { referencedNodes } from '../../logbook/export/referenced-nodes.ts';
import type { WellRecord } from '../../logbook/export/record.ts';
import type { DayEvent } from '../../../shared/api/events.ts';
import type { ActRow, ImportedRow, WellPast } from '../../store/store.ts';
import { alarmKey, baselineKey, cycleKey, dayKey } from './keys.ts';

export function gatherRecord(well: string, past: WellPast): WellRecord {
  const imported = <T>(kind: ImportedRow['kind']): Map<string, T> =>
    // What is in the table was read by its shape before it was put there.
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion
    new Map(past.imported.filter((row) => row.kind === kind).map(({ key, row }) => [key, row as T]));
  const alarms = past.alarms.filter((row) => row.site === undefined);
  return {
    well,
    acts: mergeImported(actsOf(well, past.acts), imported<ActRow>('act'), ({ id }) => id).toSorted(
      (a, b) => a.atMs - b.atMs,
    ),
    entries: past.entries,
    baselines: mergeImported(past.baselines, imported('baseline'), baselineKey).toSorted(
      (a, b) => a.atMs - b.atMs || compareText(a.event.pump, b.event.pump),
    ),
    days: mergeImported(past.days, imported('day'), dayKey)
      .filter(({ event }) => hasData(event))
      .toSorted(
        (a, b) =>
          compareText(a.event.date, b.event.date) || compareText(a.event.pump ?? '', b.event.pump ?? ''),
      ),
    cycles: mergeImported(past.cycles, imported('cycle'), cycleKey).toSorted(
      (a, b) => a.startedMs - b.startedMs || compareText(a.event.pump, b.event.pump),
    ),
    alarms: mergeImported(alarms, imported('alarm'), alarmKey).toSorted(
      (a, b) => a.sinceMs - b.sinceMs || compareText(a.id, b.id),
    ),
  };
}

/**
 * What was handed over stays as it was handed over, also where the engine made something of the
 * same name from an act of then.
 */
function mergeImported<T>(own: readonly T[], imported: Map<string, T>, keyOf: (row: T) => string): T[] {
  return [...own.filter((row) => !imported.has(keyOf(row))), ...imported.values()];
}

function compareText(a: string, b: string): number {
  return a === b ? 0 : a < b ? -1 : 1;
}

export function hasData({ heardS, cycles, ranS, ampsMedian, usedL, leakLPerDay }: DayEvent): boolean {
  return (
    (heardS ?? 0) > 0 || [cycles, ranS, ampsMedian, usedL, leakLPerDay].some((value) => value !== undefined)
  );
}

/**
 * Acts that were done to the well itself, and calibrations of the nodes that any of its cards reads
 * from.
 */
export function actsOf(well: string, rows: readonly ActRow[]): ActRow[] {
  const mine = rows.filter((row) => row.well === well);
  const nodes = referencedNodes(well, mine);
  return rows.filter(
    (row) =>
      row.well === well || (row.kind === 'calibrated' && row.node !== undefined && nodes.has(row.node)),
  );
}
