/**
 * A packet opened on its own thread (src/server/export/open-worker.ts), from sources and as it is
 * built.
 */
import { unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { buildExportZip } from '../../../src/logbook/export/export.ts';
import { openAside } from '../../../src/server/export/open-aside.ts';
import { millRecord, DOCUMENTS, sha256, STYLE } from '../../support/export-well.ts';

const papers = new Map(Object.values(DOCUMENTS).map((bytes) => [sha256(bytes), bytes]));
const mill = (): Uint8Array =>
  Buffer.concat([
    ...buildExportZip({
      record: millRecord(),
      style: STYLE,
      sha256,
      hasDocument: (hash) => papers.has(hash),
      readDocument: (hash) => papers.get(hash)!,
    }),
  ]);
const BUILT = new URL('../../../dist/src/server/export/open-aside.js', import.meta.url).href;
const built = async (): Promise<typeof openAside> =>
  ((await import(/* @vite-ignore */ BUILT)) as { openAside: typeof openAside }).openAside;

describe.each<[string, () => Promise<typeof openAside>]>([
  ['from sources', () => Promise.resolve(openAside)],
  ['as it is built', built],
])('openAside, %s', (_, load) => {
  test('gives the record and the papers, one at a time', async () => {
    const open = await load();
    await open(mill(), async (opened) => {
      if ('problem' in opened) throw new Error(opened.problem);
      expect(opened.record).toEqual(millRecord());
      expect(opened.missing).toEqual([]);
      expect(new Set(opened.documents.map(({ hash }) => hash))).toEqual(new Set(papers.keys()));
      for (const { hash, read } of opened.documents) expect(sha256(await read())).toBe(hash);
    });
  });

  test('says what is wrong with a packet', async () => {
    const open = await load();
    const { 'record.ndjson': _record, ...rest } = unzipSync(mill());
    expect(await open(zipSync(rest), (opened) => opened)).toEqual({
      problem: 'Cannot import: there is no record.ndjson in it',
    });
  });

  test('hands on what goes wrong in its use', async () => {
    const open = await load();
    await expect(open(mill(), () => Promise.reject(new Error('the disk is full')))).rejects.toThrow(
      'the disk is full',
    );
  });
});
