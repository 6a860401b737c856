import {
  chmodSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openDataFolder } from '../../src/server/data-folder.ts';
import { openDocuments } from '../../src/store/document-files.ts';
import { openStore } from '../../src/store/open-store.ts';

let top = '';
let dataDir = '';
let umask = 0;
const said: string[] = [];
beforeEach(() => {
  // The usual one: what is closed here is closed by the modes that are given, not by the process.
  umask = process.umask(0o022);
  top = mkdtempSync(join(tmpdir(), 'data-folder-'));
  dataDir = join(top, 'wells');
  said.length = 0;
});
afterEach(() => {
  process.umask(umask);
  rmSync(top, { recursive: true });
});

const open = (): void =>
  openDataFolder({
    dataDir,
    storeFile: 'stillwell.db',
    papersFolder: 'papers',
    log: (level, sentence) => said.push(`${level}: ${sentence}`),
  });
/** Each path of the folder with its mode, where others may do anything. */
function openToOthers(): string[] {
  const all = ['', ...readdirSync(dataDir, { recursive: true, encoding: 'utf8' })];
  return all.filter((path) => {
    const found = lstatSync(join(dataDir, path));
    return !found.isSymbolicLink() && (found.mode & 0o077) !== 0;
  });
}
const modeOf = (path: string): number => statSync(join(dataDir, path)).mode & 0o777;

describe.skipIf(process.platform === 'win32')('the data folder', () => {
  test('is made for its owner alone, with database, log files and papers', async () => {
    open();
    const store = openStore(join(dataDir, 'stillwell.db'));
    await store.commit([{ change: 'setting', key: 'a', value: 'b' }]);
    openDocuments(join(dataDir, 'papers')).put(Buffer.from('abc'));
    const made = readdirSync(dataDir);
    expect(made).toEqual(
      expect.arrayContaining([
        'papers',
        'stillwell.db',
        'stillwell.db-shm',
        'stillwell.db-wal',
        'stillwell.db.lock',
      ]),
    );
    expect(openToOthers()).toEqual([]);
    expect(modeOf('papers')).toBe(0o700);
    expect(modeOf('stillwell.db')).toBe(0o600);
    await store.close();
    expect(said).toEqual([]);
  });

  test('that was open is closed at the start, which is said once', () => {
    mkdirSync(join(dataDir, 'papers', 'ba'), { recursive: true, mode: 0o755 });
    for (const file of ['stillwell.db', 'stillwell.db-wal', 'papers/ba/ba78', 'papers/ba/ba78.part'])
      writeFileSync(join(dataDir, file), 'x', { mode: 0o644 });
    open();
    expect(openToOthers()).toEqual([]);
    expect(said).toEqual([
      `info: Removed other users’ access to 7 files and folders in the data folder ${dataDir}.`,
    ]);
    open();
    expect(said).toHaveLength(1);
  });

  test('keeps what is not the server’s as it is, and follows no link', () => {
    mkdirSync(join(dataDir, 'papers'), { recursive: true, mode: 0o700 });
    chmodSync(dataDir, 0o700);
    const elsewhere = join(top, 'elsewhere');
    writeFileSync(elsewhere, 'x', { mode: 0o644 });
    symlinkSync(elsewhere, join(dataDir, 'papers', 'link'));
    writeFileSync(join(dataDir, 'notes.txt'), 'x', { mode: 0o644 });
    open();
    expect(modeOf('notes.txt')).toBe(0o644);
    expect(statSync(elsewhere).mode & 0o777).toBe(0o644);
    expect(said).toEqual([]);
  });

  test('that is meant for all users stays so, and is warned of', () => {
    mkdirSync(dataDir);
    chmodSync(dataDir, 0o1777);
    open();
    expect(statSync(dataDir).mode & 0o7777).toBe(0o1777);
    expect(said).toEqual([expect.stringMatching(/^warn: .* is shared by all users/u)]);
  });
});
