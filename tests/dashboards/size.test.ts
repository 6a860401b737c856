import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { buildPages } from '../browser/support/build-pages.ts';

/** What a slow link in a farm yard carries in a few seconds. */
const MAX_GZIP_BYTES = 120_000;

test('all files of the built pages together, packed, stay under 120 kB, and none names another host', async () => {
  const pages = await buildPages();
  const files = readdirSync(pages.folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => readFileSync(join(entry.parentPath, entry.name)));
  pages.remove();
  expect(files.length).toBeGreaterThanOrEqual(3);
  const bytes = files.reduce((sum, file) => sum + gzipSync(file, { level: 9 }).byteLength, 0);
  expect(bytes).toBeLessThan(MAX_GZIP_BYTES);
  const hosts = files.flatMap((file) =>
    [...file.toString('utf8').matchAll(/https?:\/\/[\w.-]+/g)].map(([host]) => host),
  );
  // Names of XML vocabularies: never asked for.
  expect(hosts.filter((host) => host !== 'http://www.w3.org')).toEqual([]);
});
