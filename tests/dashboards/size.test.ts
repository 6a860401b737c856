import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { builtPages } from '../browser/support/built-pages.ts';

/** What a slow link in a farm yard carries in a few seconds. */
const FIRST_GZIP_BYTES = 120_000;
/** A second more of it, for a page that is fetched when it is opened. */
const LATER_GZIP_BYTES = 30_000;

test('what the first page needs, packed, stays under 120 kB, each page opened later under 30 kB, and none names another host', async () => {
  const files = readdirSync(builtPages(), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => ({ name: entry.name, bytes: readFileSync(join(entry.parentPath, entry.name)) }));
  const html = files.find(({ name }) => name === 'index.html')!.bytes.toString('utf8');
  const first = files.filter(({ name }) => name === 'index.html' || html.includes(name));
  expect(first.length).toBeGreaterThanOrEqual(3);
  const packed = (bytes: Buffer): number => gzipSync(bytes, { level: 9 }).byteLength;
  expect(first.reduce((sum, { bytes }) => sum + packed(bytes), 0)).toBeLessThan(FIRST_GZIP_BYTES);
  const large = files
    .filter((file) => !first.includes(file))
    .filter(({ bytes }) => packed(bytes) > LATER_GZIP_BYTES)
    .map(({ name }) => name);
  expect(large).toEqual([]);
  const hosts = files.flatMap(({ bytes }) =>
    [...bytes.toString('utf8').matchAll(/https?:\/\/[\w.-]+/g)].map(([host]) => host),
  );
  // Names of XML vocabularies: never asked for.
  expect(hosts.filter((host) => host !== 'http://www.w3.org')).toEqual([]);
});
