import { describe, expect, test } from 'vitest';
import type { Entry, EntryOf } from '../../shared/entries/entry.ts';
import { MAX_DOCUMENT_BYTES } from '../../shared/entries/limits.ts';
import {
  searchDocuments,
  documentName,
  documentsAmong,
  uploadProblem,
  fileSizeText,
} from '../../shared/text/en/documents.ts';

const paper = (id: string, name: string, more: object = {}): EntryOf<'paper'> => ({
  id,
  well: 'mill',
  kind: 'paper',
  atMs: 0,
  createdMs: 0,
  by: 'Ines',
  body: { hash: 'a'.repeat(64), name, type: 'application/pdf', bytes: 1, ...more },
});

describe('documentsAmong', () => {
  test('newest first; what was put right or struck out is not shown', () => {
    const entries: Entry[] = [
      paper('1', 'log'),
      paper('2', 'old name'),
      { ...paper('3', 'new name'), replaces: '2' },
      paper('4', 'of another well'),
      { ...paper('5', ''), kind: 'struck', replaces: '4', body: {} },
      { ...paper('6', 'x'), kind: 'note', body: { text: 'x' } },
    ];
    const { documents, voided } = documentsAmong(entries);
    expect(documents.map(({ name }) => name)).toEqual(['new name', 'log']);
    expect(voided.map(({ name, voidedBy }) => [name, voidedBy.id])).toEqual([['of another well', '5']]);
  });
});

test.each([
  ['', 3],
  ['log', 1],
  ['LOG hollis', 1],
  ['pompe a', 1],
  ['pdf', 3],
  ['ines', 3],
  ['log receipt', 0],
])('"%s" finds %i', (looked, count) => {
  const list = [
    paper('1', 'Well log', { text: 'Hollis Drilling' }),
    paper('2', 'Pompe à eau'),
    paper('3', 'x', { about: 'receipt' }),
  ];
  expect(searchDocuments(documentsAmong(list).documents, looked)).toHaveLength(count);
});

test('a file that cannot be kept is not sent at all', () => {
  expect(uploadProblem({ size: 0 })).toBe('It is empty.');
  expect(uploadProblem({ size: MAX_DOCUMENT_BYTES })).toBeUndefined();
  expect(uploadProblem({ size: MAX_DOCUMENT_BYTES + 1 })).toBe(
    'It has 26.2 MB; a document may have 25 MiB at most.',
  );
});

test.each([
  ['image.jpg', 0, 'photo 2026-03-02'],
  ['IMG.JPEG', 1, 'photo 2026-03-02 (2)'],
  ['../../etc/passwd', 0, 'passwd'],
  ['C:\\papers\\log.pdf', 0, 'log.pdf'],
  ['two\nlines.txt', 0, 'two lines.txt'],
  ['x'.repeat(300), 0, 'x'.repeat(120)],
  // A sign of two places is not cut in two, which no address could hold.
  [`${'🐄'.repeat(200)}.jpeg`, 0, `${'🐄'.repeat(57)}.jpeg`],
])('a file called %j is called', (name, number, called) => {
  expect(documentName({ name, lastModified: Date.UTC(2026, 2, 2) }, number)).toBe(called);
});

test.each([
  [18, '18 bytes'],
  [34_400, '34 kB'],
  [2_440_000, '2.4 MB'],
])('%i bytes are %s', (bytes, words) => expect(fileSizeText(bytes)).toBe(words));
