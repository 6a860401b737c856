/**
 * What the world does to the file: each time one sentence that says what to do, and what was kept
 * stays kept.
 */
import {
  closeSync,
  copyFileSync,
  existsSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openStore } from '../../src/store/open-store.ts';
import { StoreError, toStoreError } from '../../src/store/store-error.ts';
import { packsSinceSave } from '../support/packs-since-save.ts';
import type { Change, Store } from '../../src/store/store.ts';

const NOON = Date.UTC(2026, 2, 2, 12);
const DAY = 86_400_000;

let folder = '';
let path = '';
const open: Store[] = [];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'store-faults-'));
  path = join(folder, 'wells.db');
});
afterEach(async () => {
  for (const store of open.splice(0)) await store.close();
  rmSync(folder, { recursive: true });
});

function opened(...args: Parameters<typeof openStore>): Store {
  const store = openStore(...args);
  open.push(store);
  return store;
}

/** A pack of 100 readings that no codec makes small. */
function packChange(seq: number): Change {
  const times = Float64Array.from({ length: 100 }, (_, i) => NOON + seq * 100_000 + i * 1000);
  const values = times.map((_, i) => Math.sin(seq * 100 + i));
  return {
    change: 'pack',
    pack: {
      node: 'barn',
      kind: 'readings',
      boot: 1,
      seq,
      arrivalMs: NOON,
      digest: seq,
      columns: [{ channel: 'current', times, values }],
    },
  };
}

/** The sentence that an action ends with. */
async function reported(action: () => unknown): Promise<string> {
  try {
    await action();
  } catch (error) {
    if (!(error instanceof StoreError)) throw error;
    return `${error.fault}: ${error.message.replaceAll(folder, '…')}`;
  }
  return 'nothing';
}

/** A file of some size, sealed and closed. */
async function filled(packs: number): Promise<void> {
  const store = openStore(path);
  for (let seq = 0; seq < packs; seq++) await store.commit([packChange(seq)]);
  while (await store.maintain(NOON + DAY, 1000));
  await store.close();
}

describe('a full disk', () => {
  const limit = 400_000;

  /** Commits until one is refused; returns how many were kept. */
  async function fill(store: Store, from: number): Promise<{ kept: number; error: string }> {
    for (let seq = from; seq < from + 5000; seq++) {
      const error = await reported(() =>
        store.commit([packChange(seq), { change: 'setting', key: 'seq', value: String(seq) }]),
      );
      if (error !== 'nothing') return { kept: seq - from, error };
    }
    return { kept: 5000, error: 'nothing' };
  }

  test('refuses the commit, keeps what was kept, and takes more when there is room', async () => {
    const store = opened(path, { maxBytes: limit });
    const { kept, error } = await fill(store, 0);
    expect(error).toBe(
      'disk-full: Cannot save: the disk that holds …/wells.db is full. Free some space. What was saved is safe, and nodes send the rest again.',
    );
    expect(kept).toBeGreaterThan(100);
    expect(await store.getValue('seq')).toBe(String(kept - 1));
    expect((await store.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe(kept * 100);
    expect(await packsSinceSave(store)).toHaveLength(kept);
    await store.close();

    const roomy = opened(path, { maxBytes: 4 * limit });
    expect((await roomy.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe(kept * 100);
    await roomy.commit([packChange(kept)]);
    expect((await roomy.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe((kept + 1) * 100);
  });

  test('takes more in the same run once retention has made room', async () => {
    await filled(300);
    const limitBytes = statSync(path).size + 50_000;
    const store = opened(path, { maxBytes: limitBytes, retention: { readingsDays: 30 } });
    const { kept, error } = await fill(store, 1000);
    expect(error).toMatch(/^disk-full/);
    expect(await reported(() => store.maintain(NOON + 31 * DAY, 1000))).toMatch(/^(disk-full|nothing)/);
    const more = await fill(store, 1000 + kept);
    expect(more.kept).toBeGreaterThan(100);
    expect((await store.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe(
      (kept + more.kept) * 100,
    );
  });

  test('stops housekeeping without harm', async () => {
    const store = opened(path, { maxBytes: limit });
    const { kept } = await fill(store, 0);
    expect(await reported(() => store.maintain(NOON + DAY, 1000))).toMatch(
      /^disk-full: Cannot maintain the store/,
    );
    expect((await store.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe(kept * 100);
    expect(await store.stats()).toMatchObject({ unsealedReadings: kept * 100, sealedReadings: 0 });
  });
});

describe('a damaged file', () => {
  test('of other bytes is told', async () => {
    writeFileSync(path, 'not a database, but long enough to look at'.repeat(100));
    expect(await reported(() => openStore(path))).toBe(
      'damaged: Cannot open the store: the file …/wells.db is damaged. Stop the server, keep a copy of the file and of those beside it, then put back a backup.',
    );
  });

  test('that was cut short is told', async () => {
    await filled(300);
    truncateSync(path, Math.floor(statSync(path).size / 3));
    expect(await reported(() => openStore(path))).toMatch(/^damaged: Cannot open the store/);
  });

  test('is told wherever bytes were changed in the pages of readings, and is left as it is', async () => {
    await filled(300);
    const whole = readFileSync(path);
    const store = openStore(path);
    const right = await store.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER);
    await store.close();
    let found = 0;
    for (let at = 2000; at < whole.length; at += Math.floor(whole.length / 23)) {
      copyFileSync(path, `${path}.copy`);
      const file = openSync(`${path}.copy`, 'r+');
      writeSync(file, Buffer.from(whole.subarray(at, at + 16).map((byte) => byte ^ 0x5a)), 0, 16, at);
      closeSync(file);
      const sentence = await reported(async () => {
        const spoilt = openStore(`${path}.copy`);
        try {
          // Bytes outside of the readings may be harmless; wrong readings never come out.
          expect(await spoilt.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).toEqual(right);
        } finally {
          await spoilt.close();
        }
      });
      if (sentence === 'nothing') continue;
      expect(sentence).toMatch(/^damaged: Cannot (open the store|read readings)/);
      found += 1;
    }
    expect(found).toBeGreaterThan(10);
  });

  test('in its journal is told at opening', async () => {
    const store = openStore(path);
    await store.commit([packChange(1)]);
    await store.close();
    const db = new Database(path);
    const body = db.prepare<[], Buffer>('SELECT body FROM journal').pluck().get()!;
    body[60] = body[60]! ^ 1;
    db.prepare('UPDATE journal SET body = ?').run(body);
    db.close();
    expect(await reported(() => openStore(path))).toMatch(/^damaged: Cannot read the journal/);
  });
});

describe('a file that is not for us', () => {
  test('from a newer version is told and left alone', async () => {
    await filled(1);
    const db = new Database(path);
    db.pragma('user_version = 99');
    db.close();
    const before = readFileSync(path);
    expect(await reported(() => openStore(path))).toBe(
      'newer-version: Cannot open the store: …/wells.db was written by a newer version (tables 99, this one knows 3). Install that version again.',
    );
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  test('from the first version is brought up to date, and loses nothing', async () => {
    await filled(1);
    const db = new Database(path);
    db.exec('DROP TABLE entry; DROP TABLE handed');
    db.exec(
      'DELETE FROM __drizzle_migrations WHERE created_at > (SELECT min(created_at) FROM __drizzle_migrations)',
    );
    db.pragma('user_version = 1');
    db.close();
    const before = openStore(path);
    expect(await before.entries()).toEqual([]);
    expect(await before.channels('barn')).not.toEqual([]);
    const entry = {
      id: 'e1',
      well: 'barn',
      kind: 'note',
      atMs: NOON,
      createdMs: NOON,
      body: { text: 'x' },
    } as const;
    await before.commit([{ change: 'entry', entry }]);
    await before.close();
    expect(await opened(path).entries('barn')).toEqual([entry]);
  });

  test('of another program is told and left alone', async () => {
    const db = new Database(path);
    db.exec('CREATE TABLE theirs (a)');
    db.close();
    const before = readFileSync(path);
    expect(await reported(() => openStore(path))).toBe(
      'foreign-file: Cannot open the store: …/wells.db is a database of another program. Give another file.',
    );
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  test('in a folder that is not there is told', async () => {
    path = join(folder, 'none', 'wells.db');
    expect(await reported(() => openStore(path))).toBe(
      'cannot-open: Cannot open the store: its folder …/none does not exist. Make it, or give another.',
    );
    expect(await reported(() => openStore(path, { role: 'secondary' }))).toMatch(/^cannot-open/);
  });

  test.skipIf(!existsSync('/proc/self'))(
    'in a folder that cannot be written is told (needs /proc, read-only for everybody)',
    async () => {
      expect(await reported(() => openStore('/proc/wells.db'))).toBe(
        'cannot-open: Cannot open the store: the file /proc/wells.db.lock can’t be opened. Check that its folder exists and that the server’s user may write to it.',
      );
    },
  );

  test('that is a folder is told', async () => {
    expect(await reported(() => openStore(folder, { role: 'secondary' }))).toMatch(
      /^cannot-open: Cannot open the store/,
    );
  });
});

describe('two at one file', () => {
  test('a second server is refused until the first closes', async () => {
    const first = opened(path);
    expect(await reported(() => openStore(path))).toBe(
      'in-use: Cannot open the store: another server writes to …/wells.db. Stop that one, or give this one a file of its own.',
    );
    await first.commit([packChange(1)]);
    await first.close();
    expect(await opened(path).firstReadingMs('barn', 'current')).toBe(NOON + 100_000);
  });

  test('a visitor reads all and changes single rows, and leaves readings alone', async () => {
    const server = opened(path);
    await server.commit([packChange(1)]);
    const visitor = opened(path, { role: 'secondary' });
    expect((await visitor.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe(100);
    const row = { node: 'pond', secret: 's', createdMs: NOON, speaksFor: [] };
    await visitor.commit([{ change: 'credential', row }]);
    expect(await server.credentials()).toEqual([row]);
    expect(await reported(() => visitor.commit([packChange(2)]))).toBe(
      'invalid-use: Cannot save: only the server that holds the file saves readings.',
    );
    expect(await visitor.maintain(NOON + DAY, 1000)).toBe(false);
    await server.commit([packChange(2)]);
    expect((await server.readings('barn', 'current', 0, Number.MAX_SAFE_INTEGER)).n).toBe(200);
  });
});

test.each([0, -1, Number.NaN])('readingsDays %d is refused', (readingsDays) => {
  expect(() => openStore(path, { retention: { readingsDays } })).toThrow(
    /Cannot open the store: readingsDays must be 1 or more/,
  );
});

test.each([
  ['SQLITE_FULL', 'disk-full'],
  ['SQLITE_CORRUPT_VTAB', 'damaged'],
  ['SQLITE_NOTADB', 'damaged'],
  ['SQLITE_IOERR_WRITE', 'io'],
  ['SQLITE_IOERR_CORRUPTFS', 'damaged'],
  ['SQLITE_READONLY_DIRECTORY', 'read-only'],
  ['SQLITE_BUSY_SNAPSHOT', 'in-use'],
  ['SQLITE_CANTOPEN', 'cannot-open'],
])('%s is told as %s', (code, fault) => {
  const error = toStoreError('save', 'wells.db', Object.assign(new Error('x'), { code }));
  expect(error).toMatchObject({ fault, name: 'StoreError' });
  expect((error as StoreError).message).toMatch(/^Cannot save: .*\.$/);
});

test('a fault of our own is passed on as it is', () => {
  const ours = Object.assign(new Error('x'), { code: 'SQLITE_CONSTRAINT' });
  expect(toStoreError('save', 'wells.db', ours)).toBe(ours);
});
