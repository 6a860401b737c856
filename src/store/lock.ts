/**
 * One server writes a file, never two: each would seal and merge behind the other's back. The lock is an exclusive transaction on an
 * empty database beside it, so the operating system lets go of it when the process ends, however it ends; a file with a process
 * number in it would outlive a crash.
 */
import Database from 'better-sqlite3';
import { makeReadyForSqlite } from './private-files.ts';
import { StoreError, explain } from './store-error.ts';

export interface Lock {
  release(): void;
}

/** @throws StoreError */
export function takeLock(path: string): Lock {
  let db: Database.Database | undefined;
  try {
    makeReadyForSqlite(`${path}.lock`);
    db = new Database(`${path}.lock`, { timeout: 0 });
    db.pragma('journal_mode = memory');
    db.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    db?.close();
    const told = explain('open the store', `${path}.lock`, error);
    if (told instanceof StoreError && told.fault === 'in-use') {
      throw new StoreError(
        'in-use',
        `Cannot open the store: another server writes to ${path}. Stop that one, or give this one a file of its own.`,
        error,
      );
    }
    throw told;
  }
  const held = db;
  return { release: () => held.close() };
}
