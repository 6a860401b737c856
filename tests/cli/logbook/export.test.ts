/** The command beside no server: out of one data folder, into another, and out again. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { UsageError } from '../../../src/cli/command.ts';
import { withImported } from '../../../src/server/export/with-imported.ts';
import { DOCUMENTS_FOLDER, STORE_FILE } from '../../../src/server/server.ts';
import { openStore } from '../../../src/store/open-store.ts';
import { openDocuments } from '../../../src/store/document-files.ts';
import { runCli } from '../command-line.ts';
import { millChanges, DOCUMENTS } from '../../support/export-well.ts';

let folder = '';
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'stillwell-export-'));
  for (const one of ['one', 'two']) mkdirSync(at(one));
  const store = openStore(at('one', STORE_FILE));
  await store.commit(millChanges());
  await store.close();
  for (const bytes of Object.values(DOCUMENTS)) openDocuments(at('one', DOCUMENTS_FOLDER)).put(bytes);
});
afterEach(() => rmSync(folder, { recursive: true }));

const at = (...parts: string[]): string => join(folder, ...parts);

/** What it prints on both streams, after its exit code. */
async function run(...args: string[]): Promise<string> {
  const settings = at('settings.json');
  writeFileSync(settings, '{"web":{"port":1}}');
  const { code, out, err } = await runCli([...args, '--settings', settings]);
  return [code, ...out, ...err].join(' ').replaceAll(folder, '');
}

describe('stillwell export and import', () => {
  test('hands a well over, takes it in, and hands on the same bytes', async () => {
    expect(await run('export', 'mill', at('a.zip'), '--data', at('one'))).toMatch(
      /^0 \/a\.zip: [\d,]+ bytes, everything known about mill\.$/,
    );
    expect(await run('import', at('a.zip'), '--data', at('two'))).toBe(
      '0 mill was added as a new well. Added: 8 entries, 2 documents, 5 acts, 1 alarm, 1 baseline, 20 days, 80 cycles.',
    );
    await run('export', 'mill', at('b.zip'), '--data', at('two'));
    expect(Buffer.compare(readFileSync(at('a.zip')), readFileSync(at('b.zip')))).toBe(0);
    expect(await run('import', at('a.zip'), '--data', at('two'))).toContain('Nothing in the export was new.');
  });

  test('hands over the page alone, in the units asked for', async () => {
    await run('export', 'mill', at('a.html'), '--data', at('one'), '--units', 'metric');
    expect(readFileSync(at('a.html'), 'utf8')).toContain('Static level 12.5 m');
    expect(await run('import', at('a.html'), '--data', at('two'))).toContain(
      'Missing from the export: 2 documents',
    );
  });

  test('of a well that is not the same says how to say so', async () => {
    const store = openStore(at('two', STORE_FILE));
    const entry = { ...millEntry(), id: 'other' };
    await store.commit([{ change: 'entry', entry }]);
    await store.close();
    await run('export', 'mill', at('a.zip'), '--data', at('one'));
    expect(await run('import', at('a.zip'), '--data', at('two'))).toMatch(
      /^2 There is already a well called mill here.*To confirm, add --same\.$/,
    );
    expect(await run('import', at('a.zip'), '--data', at('two'), '--same')).toContain(
      'no existing record was changed',
    );
  });

  test('while a server holds the folder asks that server, and says where it looked', async () => {
    await run('export', 'mill', at('a.zip'), '--data', at('one'));
    const held = openStore(at('one', STORE_FILE));
    // Handing over needs no server to end.
    expect(await run('export', 'mill', at('b.zip'), '--data', at('one'))).toContain(
      'everything known about mill',
    );
    await expect(run('import', at('a.zip'), '--data', at('one'))).rejects.toThrow(
      'Cannot reach the server at http://127.0.0.1:1. Is it running? Another address: --server URL',
    );
    await held.close();
  });

  test.each([
    [['export', 'mill'], 'file must be given'],
    [['export', 'mill', 'a.pdf'], 'its name must end in .zip or .html'],
    [['export', 'mill', 'a.zip', '--units', 'feet'], 'it must be us or metric: feet'],
    [['import', 'nowhere.zip'], 'Cannot read nowhere.zip: there is no such file'],
    [['export', 'barn', 'a.zip'], 'there is no such well'],
  ])('%j is a mistake that is named', async (args, says) => {
    const wrong = await run(...args, '--data', at('one')).catch((error: unknown) => error);
    expect(wrong).toBeInstanceOf(UsageError);
    expect((wrong as UsageError).message).toContain(says);
  });

  test('makes no data folder where there is none to hand over from', async () => {
    await expect(run('export', 'mill', at('a.zip'), '--data', at('three'))).rejects.toThrow(
      'there is no database in',
    );
    expect(existsSync(at('three'))).toBe(false);
  });

  test('leaves a file that is there alone', async () => {
    writeFileSync(at('a.zip'), 'mine');
    await expect(run('export', 'mill', at('a.zip'), '--data', at('one'))).rejects.toThrow(
      'it already exists',
    );
    expect(readFileSync(at('a.zip'), 'utf8')).toBe('mine');
  });
});

function millEntry() {
  const change = millChanges().find((one) => one.change === 'entry');
  if (change?.change !== 'entry') throw new Error('The mill has no entry');
  return change.entry;
}

test('the pages see the past from elsewhere in one row with what is measured here', async () => {
  await run('export', 'mill', at('a.zip'), '--data', at('one'));
  await run('import', at('a.zip'), '--data', at('two'));
  const store = openStore(at('two', STORE_FILE), { role: 'secondary' });
  const seen = withImported(store);
  const own = openStore(at('one', STORE_FILE), { role: 'secondary' });
  const ever = [0, Number.MAX_SAFE_INTEGER] as const;
  expect(await seen.cycles('mill', ...ever)).toEqual(await own.cycles('mill', ...ever));
  expect(await seen.days('mill', ...ever)).toEqual(await own.days('mill', ...ever));
  expect(await seen.baselines('mill')).toEqual(await own.baselines('mill'));
  expect(await seen.alarms({ well: 'mill' })).toEqual(
    (await own.alarms({ well: 'mill' })).map((row) => ({ ...row, imported: true })),
  );
  expect(await seen.alarms({ active: true })).toEqual([]);
  expect(await seen.alarms({ well: 'mill', fromMs: Date.UTC(2027, 0) })).toEqual([]);
  await store.close();
  await own.close();
});
