/**
 * Files and folders that their owner alone may read: they hold hashes of passwords, addresses of phones, photos. The modes are given where
 * things are made, so that they hold whatever umask the process has. Windows knows no such modes and ignores them.
 */
import { closeSync, mkdirSync, openSync, rmSync } from 'node:fs';

const FOLDER_MODE = 0o700;
const FILE_MODE = 0o600;

/** With the folders above it that are missing. One that is there stays as it is. */
export function makePrivateFolder(path: string): void {
  mkdirSync(path, { recursive: true, mode: FOLDER_MODE });
}

/**
 * A new file, open for writing. What an earlier try left under the name is removed first, a link too: nothing is ever written to where
 * somebody else's link points (`wx` follows none).
 */
export function openNewFile(path: string): number {
  rmSync(path, { force: true });
  return openSync(path, 'wx', FILE_MODE);
}

/**
 * An empty file where SQLite will make its database: it would make one that all may read, and gives its log files the mode of the
 * database. Where that cannot be done SQLite says why, in words that are known here.
 */
export function makeReadyForSqlite(path: string): void {
  if (path === ':memory:') return;
  try {
    closeSync(openSync(path, 'wx', FILE_MODE));
  } catch {
    // It is there already, or SQLite fails in the same way.
  }
}
