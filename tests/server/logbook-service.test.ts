import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openLogbookService } from '../../src/server/logbook-service.ts';
import { openStore } from '../../src/store/open-store.ts';
import { openDocuments } from '../../src/store/document-files.ts';

let folder = '';
beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), 'logbook-'))));
afterEach(() => rmSync(folder, { recursive: true }));

const NOW = Date.UTC(2026, 4, 2);
const logbook = () =>
  openLogbookService({ store: openStore(':memory:'), documents: openDocuments(folder), now: () => NOW });
const no = (result: object): unknown => ('problem' in result ? result.problem : 'taken');

describe('openDesk', () => {
  test('an entry is kept, and put right by another', async () => {
    const one = logbook();
    const first = await one.write({ kind: 'note', well: 'orchard', text: 'Key in the barn' }, 'Ines');
    if (!('entry' in first)) throw new Error(first.problem);
    await one.write({ kind: 'note', well: 'orchard', text: 'Key in the shed', replaces: first.entry.id });
    expect((await one.entries('orchard')).map(({ body, by }) => [body['text'], by])).toEqual([
      ['Key in the barn', 'Ines'],
      ['Key in the shed', undefined],
    ]);
    expect(await one.entries('other')).toEqual([]);
  });

  test('a paper is kept by what it is', async () => {
    const one = logbook();
    const kept = await one.addDocument('orchard', {
      bytes: Buffer.from('Static level 41 ft'),
      name: '../log.pdf',
    });
    if (!('entry' in kept)) throw new Error(kept.problem);
    expect(kept.entry.body).toMatchObject({ name: '../log.pdf', type: 'text/plain', bytes: 18 });
    expect(one.document(kept.entry.body.hash)?.type).toBe('text/plain');
  });

  test('a paper that is sent again is the one that is kept; under another name it is another', async () => {
    const one = logbook();
    const send = async (name: string, about?: string) => {
      const bytes = Buffer.from('Static level 41 ft');
      const sent = await one.addDocument('orchard', { bytes, name, ...(about !== undefined && { about }) });
      if (!('entry' in sent)) throw new Error(sent.problem);
      return sent.entry;
    };
    const first = await send('log.txt', 'well log');
    expect((await send('log.txt', 'well log')).id).toBe(first.id);
    expect((await send('log.txt')).id).not.toBe(first.id);
    expect((await send('other.txt', 'well log')).id).not.toBe(first.id);
    await one.write({ kind: 'struck', well: 'orchard', replaces: first.id });
    expect((await send('log.txt', 'well log')).id).not.toBe(first.id);
    expect(one.hasDocument(first.body.hash)).toBe(true);
    expect(one.hasDocument('f'.repeat(64))).toBe(false);
  });

  test('refuses what it cannot keep', async () => {
    const one = logbook();
    expect(
      no(await one.addDocument('orchard', { bytes: Buffer.from('\u007fELF'), name: 'manual.pdf' })),
    ).toContain('The content counts');
    const lie = await one.addDocument('orchard', {
      bytes: Buffer.from('Static level 41 ft'),
      name: 'log.txt',
    });
    if (!('entry' in lie)) throw new Error(lie.problem);
    const paper = { kind: 'paper', well: 'orchard', name: 'x', hash: lie.entry.body['hash'] };
    expect(no(await one.write({ ...paper, type: 'text/plain', bytes: 18 }))).toBe('taken');
    expect(no(await one.write({ ...paper, type: 'application/pdf', bytes: 18 }))).toContain(
      'must match them',
    );
    expect(no(await one.write({ ...paper, type: 'text/plain', bytes: 17 }))).toContain('must match them');
    expect(no(await one.write({ ...paper, hash: 'e'.repeat(64), type: 'text/plain', bytes: 18 }))).toContain(
      'send the bytes',
    );
    const ghost = 'f'.repeat(64);
    const check = { kind: 'check', well: 'orchard', check: 'x', outcome: 'right', papers: [ghost] };
    expect(no(await one.write(check))).toContain('unknown document');
    expect(no(await one.write({ kind: 'note', well: 'orchard', text: 'x', replaces: 'gone' }))).toContain(
      'not in the logbook of this well',
    );
  });
});
