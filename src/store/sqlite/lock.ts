/**
 * One server writes a file, never two: each would seal and merge behind the other's back. The lock
 * is an exclusive transaction on an empty database beside it, so the operating system lets go of it
 * when the process ends, however it ends; a file with a process number in it would outlive a crash.
 */
import Database from 'better-sqlite3';
import { makeReadyForSqlite } from '../private-files.ts';
import { cannotOpen, StoreError, toStoreError } from '../store-error.ts';
import { texts } from '../texts.ts';

export interface Lock {
  release(): void;
}

/** @throws StoreError */
export function acquireLock(path: string): Lock {
  let db: Database.Database | undefined;
  try {
    makeReadyForSqlite(`${path}.lock`);
    db = new Database(`${path}.lock`, { timeout: 0 });
    db.pragma('journal_mode = memory');
    db.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    db?.close();
    const storeError = toStoreError('open', `${path}.lock`, error);
    if (storeError instanceof StoreError && storeError.fault === 'in-use') {
      throw new StoreError('in-use', cannotOpen(texts().otherServer(path)), error);
    }
    throw storeError;
  }
  const held = db;
  return { release: () => held.close() };
}
