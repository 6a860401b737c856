import {
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { openDocuments } from '../../src/store/document-files.ts';

let folder = '';
beforeEach(() => void (folder = mkdtempSync(join(tmpdir(), 'papers-'))));
afterEach(() => rmSync(folder, { recursive: true }));

describe('openPapers', () => {
  // SHA-256 of "abc": FIPS 180-4 examples (NIST).
  const ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

  test('keeps a paper under the hash of its content, once', () => {
    const papers = openDocuments(folder);
    expect(papers.put(Buffer.from('abc'))).toBe(ABC);
    expect(papers.put(Buffer.from('abc'))).toBe(ABC);
    expect(new Set(readdirSync(folder, { recursive: true, encoding: 'utf8' }))).toEqual(
      new Set(['ba', join('ba', ABC)]),
    );
    expect(papers.read(ABC)?.toString()).toBe('abc');
    expect(papers.has(ABC)).toBe(true);
  });

  test('knows nothing of what was never kept', () => {
    const papers = openDocuments(folder);
    expect(papers.has(ABC)).toBe(false);
    expect(papers.isIntact(ABC)).toBe(false);
    expect(papers.read(ABC)).toBeUndefined();
  });

  test.each(['../../etc/passwd', '', 'BA', `${ABC}/..`])('takes no path for a hash: %s', (path) => {
    expect(() => openDocuments(folder).read(path)).toThrow('must be SHA-256');
  });

  test('writes over what an earlier try left, and never to where a link points', () => {
    const elsewhere = join(folder, 'elsewhere');
    writeFileSync(elsewhere, 'theirs');
    mkdirSync(join(folder, 'ba'));
    symlinkSync(elsewhere, join(folder, 'ba', `${ABC}.part`));
    const papers = openDocuments(folder);
    papers.put(Buffer.from('abc'));
    expect(readFileSync(elsewhere, 'utf8')).toBe('theirs');
    expect(papers.read(ABC)?.toString()).toBe('abc');
    rmSync(join(folder, 'ba', ABC));
    writeFileSync(join(folder, 'ba', `${ABC}.part`), 'half of a longer one');
    papers.put(Buffer.from('abc'));
    expect(papers.read(ABC)?.toString()).toBe('abc');
    expect(readdirSync(join(folder, 'ba'))).toEqual([ABC]);
  });

  test('says so where a file is not what was kept, and mends it when the paper comes again', () => {
    const papers = openDocuments(folder);
    papers.put(Buffer.from('abc'));
    expect(papers.isIntact(ABC)).toBe(true);
    truncateSync(join(folder, 'ba', ABC), 2);
    expect(papers.isIntact(ABC)).toBe(false);
    expect(() => papers.read(ABC)).toThrow('its content is not what was saved');
    papers.put(Buffer.from('abc'));
    expect(papers.read(ABC)?.toString()).toBe('abc');
  });
});
