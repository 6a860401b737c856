/**
 * Engine states of a well at measured times, thinned so that a late pack of any day within the
 * settling time finds one not far before it: all of the last hour, one an hour for a day, one a day
 * for eight days. Ages count from the well's newest snapshot: what is kept must not depend on when
 * the data came.
 */
import { DAY_MS, HOUR_MS } from '../../../shared/units/duration.ts';
import type { Db } from './database.ts';

const KEEP_DAYS = 8;

/**
 * Which of these times (ascending) to keep. In each hour or day it is the earliest, so that one
 * once kept goes on being kept.
 */
export function snapshotsToKeep(timesMs: readonly number[]): number[] {
  const newest = timesMs.at(-1) ?? 0;
  const taken = new Set<string>();
  return timesMs.filter((t) => {
    const age = newest - t;
    if (age <= HOUR_MS) return true;
    const slot = age <= DAY_MS ? `h${Math.floor(t / HOUR_MS)}` : `d${Math.floor(t / DAY_MS)}`;
    if (age > KEEP_DAYS * DAY_MS || taken.has(slot)) return false;
    taken.add(slot);
    return true;
  });
}

export interface SnapshotTable {
  put(well: string, atMs: number, state: Uint8Array): void;
  /** Those after `fromMs`: the one at it is what the well is run again from. */
  deleteAfter(well: string, fromMs: number): void;
  find(well: string, atMs: number): { atMs: number; state: Uint8Array } | undefined;
  wells(): string[];
  thin(well: string): void;
}

/**
 * Prepared statements: with 1,000 wells these are the largest rows that are written again and
 * again.
 */
export function snapshotTable(db: Db): SnapshotTable {
  const put = db.prepare<[string, number, Uint8Array]>(
    'INSERT INTO snapshot (well, at_ms, state) VALUES (?, ?, ?) ON CONFLICT DO UPDATE SET state = excluded.state',
  );
  const forget = db.prepare<[string, number]>('DELETE FROM snapshot WHERE well = ? AND at_ms > ?');
  const find = db.prepare<[string, number], { atMs: number; state: Buffer }>(
    'SELECT at_ms AS atMs, state FROM snapshot WHERE well = ? AND at_ms <= ? ORDER BY at_ms DESC LIMIT 1',
  );
  const wells = db.prepare<[], string>('SELECT DISTINCT well FROM snapshot ORDER BY well').pluck();
  const times = db
    .prepare<[string], number>('SELECT at_ms FROM snapshot WHERE well = ? ORDER BY at_ms')
    .pluck();
  const drop = db.prepare<[string, number]>('DELETE FROM snapshot WHERE well = ? AND at_ms = ?');
  return {
    put: (well, atMs, state) => void put.run(well, atMs, state),
    deleteAfter: (well, fromMs) => void forget.run(well, fromMs),
    find(well, atMs) {
      const found = find.get(well, atMs);
      return found && { atMs: found.atMs, state: Uint8Array.from(found.state) };
    },
    wells: () => wells.all(),
    thin(well) {
      const all = times.all(well);
      const keep = new Set(snapshotsToKeep(all));
      for (const t of all) if (!keep.has(t)) drop.run(well, t);
    },
  };
}
