/**
 * Files and folders that their owner alone may read: they hold hashes of passwords, addresses of
 * phones, photos. The modes are given where things are made, so that they hold whatever umask the
 * process has. Windows knows no such modes and ignores them.
 */
import { closeSync, existsSync, mkdirSync, openSync, rmSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileError } from '../../shared/text/en/system-reasons.ts';
import { texts } from './texts.ts';

const FOLDER_MODE = 0o700;
const FILE_MODE = 0o600;

/**
 * With the folders above it that are missing. One that is there stays as it is. The folders are
 * made one by one: where a file system has no room for folders, as under /proc, `recursive` of Node
 * 20 never returns.
 * @throws Error with one sentence.
 */
export function makePrivateFolder(path: string): void {
  const missing: string[] = [];
  for (let folder = resolve(path); !existsSync(folder); folder = dirname(folder)) missing.unshift(folder);
  try {
    for (const folder of missing) mkdirSync(folder, { mode: FOLDER_MODE });
  } catch (cause) {
    throw fileError(texts().makeFolder, path, cause);
  }
  if (!statSync(path).isDirectory()) throw new Error(texts().fileOfThisName(path));
}

/**
 * A new file, open for writing. What an earlier try left under the name is removed first, a link
 * too: nothing is ever written to where somebody else's link points (`wx` follows none).
 */
export function openNewFile(path: string): number {
  rmSync(path, { force: true });
  return openSync(path, 'wx', FILE_MODE);
}

/**
 * An empty file where SQLite will make its database: it would make one that all may read, and gives
 * its log files the mode of the database. Where that cannot be done SQLite says why, in words that
 * are known here.
 */
export function makeReadyForSqlite(path: string): void {
  if (path === ':memory:') return;
  try {
    closeSync(openSync(path, 'wx', FILE_MODE));
  } catch {
    // It is there already, or SQLite fails in the same way.
  }
}
