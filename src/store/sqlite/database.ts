/**
 * Opens the file: looks whether it is ours, whole, and not from a newer version, then brings its
 * tables up to date. Whatever is wrong is one sentence, and nothing is written before all looks are
 * done.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { drizzle } from 'drizzle-orm/better-sqlite3';
import { migrate } from 'drizzle-orm/better-sqlite3/migrator';
import { makeReadyForSqlite } from '../private-files.ts';
import { cannotOpen, StoreError, toStoreError } from '../store-error.ts';
import { texts } from '../texts.ts';

export type Db = Database.Database;

/** Marks a SQLite file as one of this project (PRAGMA application_id): the letters "Well". */
const APPLICATION_ID = 0x57656c6c;

/**
 * A block's last page is half empty on average, and each of some forty tables and indexes takes a
 * page: small pages waste less. Measured on four wells for a month at 5 s, whole file: 0.538,
 * 0.559, 0.608, 0.652 B a reading at 1, 2, 4 and 8 KiB; reading took the same time.
 */
const PAGE_BYTES = 1024;

/**
 * Other processes only write single rows (a new node's credential); they are never busy for long.
 */
const BUSY_TIMEOUT_MS = 5_000;

/**
 * Reading a larger file whole at each start would take longer than a restart may; blocks carry
 * checksums of their own.
 */
const QUICK_CHECK_MAX_BYTES = 2 ** 30;

/**
 * The log is copied into the file at this size: often enough to keep it small, seldom enough that a
 * page written ten times is copied once.
 */
const WAL_BYTES = 8 * 2 ** 20;

const MIGRATIONS = fileURLToPath(new URL('./migrations', import.meta.url));

/** How many migrations this build knows: the version of the file. */
function knownVersion(): number {
  const list: unknown = JSON.parse(readFileSync(`${MIGRATIONS}/meta/_journal.json`, 'utf8'));
  const entries = typeof list === 'object' && list !== null && 'entries' in list ? list.entries : undefined;
  if (!Array.isArray(entries)) throw new Error(`Cannot read migrations: ${MIGRATIONS} has no list of them`);
  return entries.length;
}

function sizeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
}

function pragmaNumber(db: Db, pragma: string): number {
  return Number(db.pragma(pragma, { simple: true }));
}

function validateDatabase(db: Db, path: string, known: number): void {
  const id = pragmaNumber(db, 'application_id');
  const tables = Number(db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get());
  if (id !== APPLICATION_ID && (id !== 0 || tables > 0)) {
    throw new StoreError('foreign-file', cannotOpen(texts().isNoStore(path)));
  }
  const version = pragmaNumber(db, 'user_version');
  if (version > known) {
    throw new StoreError('newer-version', cannotOpen(texts().isNewer({ path, version, known })));
  }
  if (sizeOf(path) <= QUICK_CHECK_MAX_BYTES) {
    const found = String(db.pragma('quick_check(1)', { simple: true }));
    if (found !== 'ok') throw Object.assign(new Error(found), { code: 'SQLITE_CORRUPT' });
  }
}

function configureAndMigrate(db: Db, known: number, maxBytes: number): void {
  // Both only take effect on a file without tables, and before the write-ahead log is there.
  db.pragma(`page_size = ${PAGE_BYTES}`);
  db.pragma('auto_vacuum = INCREMENTAL');
  db.pragma('journal_mode = WAL');
  // FULL: a commit is on the disk when it returns. The driver's default for a write-ahead log is
  // less.
  db.pragma('synchronous = FULL');
  db.pragma('cache_size = -32768');
  db.pragma(`wal_autocheckpoint = ${WAL_BYTES / PAGE_BYTES}`);
  if (Number.isFinite(maxBytes))
    db.pragma(`max_page_count = ${Math.ceil(maxBytes / pragmaNumber(db, 'page_size'))}`);
  if (pragmaNumber(db, 'user_version') === known) return;
  // Marked first: a crash between here and the last line leaves a file that is known to be ours,
  // and is set up again.
  db.pragma(`application_id = ${APPLICATION_ID}`);
  migrate(drizzle(db), { migrationsFolder: MIGRATIONS });
  db.pragma(`user_version = ${known}`);
}

/** The driver's own word for it does not say which folder. */
export function requireFolder(path: string): void {
  const folder = dirname(path);
  if (path === ':memory:' || existsSync(folder)) return;
  throw new StoreError('cannot-open', cannotOpen(texts().noFolder(folder)));
}

/** `maxBytes` is a limit for the file. @throws StoreError */
export function openDatabase(path: string, maxBytes: number): Db {
  let db: Db | undefined;
  try {
    const known = knownVersion();
    makeReadyForSqlite(path);
    db = new Database(path, { timeout: BUSY_TIMEOUT_MS });
    validateDatabase(db, path, known);
    configureAndMigrate(db, known, maxBytes);
    return db;
  } catch (error) {
    db?.close();
    throw toStoreError('open', path, error);
  }
}
