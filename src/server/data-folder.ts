/**
 * The data folder at the start of a server: made for its owner alone, and closed to other users of
 * the computer where it, or what the server keeps in it, was made open by an earlier version or a
 * copy. Files of others in it are left alone.
 */
import { chmodSync, lstatSync, readdirSync, realpathSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { makePrivateFolder } from '../store/private-files.ts';
import { texts } from './texts.ts';

export interface DataFolderOptions {
  dataDir: string;
  storeFile: string;
  papersFolder: string;
  log: (level: 'info' | 'warn' | 'error', sentence: string) => void;
}

/** Rights of the group and of everybody. */
const OF_OTHERS = 0o077;
/** Set on folders that are meant for all, as /tmp is (chmod(1), "restricted deletion flag"). */
const SHARED_FOLDER = 0o1000;
/** The database, what SQLite keeps beside it (sqlite.org/tempfiles.html), and the lock. */
const BESIDE_STORE = ['', '-wal', '-shm', '-journal', '.lock'];

/** Says once how much was closed, and what could not be. */
export function openDataFolder({ dataDir, storeFile, papersFolder, log }: DataFolderOptions): void {
  makePrivateFolder(dataDir);
  if (process.platform === 'win32') return;
  const shared = (statSync(dataDir).mode & SHARED_FOLDER) !== 0;
  if (shared) {
    log('warn', texts().dataFolderIsAFolder(dataDir));
  }
  let closed = 0;
  const failed: string[] = [];
  const own = [
    // Itself it may be a link that somebody set; below it links are left alone.
    ...(shared ? [] : [realpathSync(dataDir)]),
    ...BESIDE_STORE.map((ending) => join(dataDir, `${storeFile}${ending}`)),
    ...tree(join(dataDir, papersFolder)),
  ];
  for (const path of own) {
    try {
      if (closeToOthers(path)) closed += 1;
    } catch (error) {
      failed.push(error instanceof Error ? error.message : String(error));
    }
  }
  if (closed > 0) log('info', texts().closedTheDataFolder({ dataDir, closed }));
  if (failed.length > 0)
    log(
      'warn',
      texts().cannotCloseFilesAndFolders({ failedCount: failed.length, dataDir, failed: failed[0]! }),
    );
}

function* tree(path: string): Generator<string> {
  if (lstatSync(path, { throwIfNoEntry: false })?.isDirectory() !== true) return;
  yield path;
  for (const entry of readdirSync(path, { withFileTypes: true })) {
    const inner = join(path, entry.name);
    if (entry.isDirectory()) yield* tree(inner);
    else yield inner;
  }
}

/** Whether it was open to others. @throws Error where it may not be changed. */
function closeToOthers(path: string): boolean {
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (!found || !(found.isFile() || found.isDirectory()) || (found.mode & OF_OTHERS) === 0) return false;
  chmodSync(path, found.mode & 0o777 & ~OF_OTHERS);
  return true;
}
