/**
 * The packet's page as text: a small well's is kept as a snapshot, and its markup is held to be
 * whole.
 */
import { describe, expect, test } from 'vitest';
import { buildExportPage } from '../../../src/logbook/export/export.ts';
import type { WellRecord } from '../../../src/logbook/export/record.ts';
import { millRecord, DOCUMENTS, sha256, STYLE, smallPage } from '../../support/export-well.ts';

const pageOf = (record: WellRecord): string =>
  buildExportPage({
    record,
    style: STYLE,
    sha256,
    hasDocument: (hash) => hash === sha256(DOCUMENTS.log),
    readDocument: () => new Uint8Array(),
  });

/** What stands there for eyes, without drawings, style and data. */
function words(page: string): string {
  return page
    .replaceAll(/<(style|script|svg)[\s\S]*?<\/\1>/g, '')
    .replaceAll(/<\/(th|td|dt)>/g, ' | ')
    .replaceAll(/<\/(p|h\d|li|tr|dd|summary|title|caption)>/g, '\n')
    .replaceAll(/<[^>]*>/g, '')
    .replaceAll(/[ \t]+/g, ' ')
    .replaceAll(/\n\s*/g, '\n');
}

/** Elements that have no end (HTML, 13.1.2). */
const VOID = ['meta', 'br'];

/** Every element is ended, in its order: the first that is not. */
function unclosed(page: string): string | undefined {
  const open: string[] = [];
  const bare = page
    .replaceAll(/<(style|script)([^>]*)>[\s\S]*?<\/\1>/g, '<$1></$1>')
    .replace('<!doctype html>', '');
  for (const [, end, name] of bare.matchAll(/<(\/?)([a-z0-9]+)(?:\s+[a-zA-Z-]+(?:="[^"<>]*")?)*\s*>/g)) {
    if (VOID.includes(name!)) continue;
    if (end === '') open.push(name!);
    else if (open.pop() !== name) return name;
  }
  return open[0];
}

describe('the page of a packet', () => {
  test('says what is known, and that the rest is not', () => {
    expect(words(pageOf(millRecord()))).toMatchSnapshot();
  });

  test.each([
    ['a well of everything', pageOf(millRecord())],
    ['a well of nothing', smallPage()],
  ])('%s is whole and asks nothing of anybody', (_, page) => {
    expect(unclosed(page)).toBeUndefined();
    // Each "<" that is left begins an element: nothing that people wrote does.
    const bare = page.replaceAll(/<(style|script)[\s\S]*?<\/\1>/g, '');
    expect(bare.match(/<(?!\/?[a-z][a-z0-9]*[\s>]|!doctype html>)/g)).toBeNull();
    expect(page).not.toMatch(/\b(src|href)="(?!#)|url\(|@import|https?:\/\//);
    expect(page.match(/<script/g)).toHaveLength(1);
  });

  test('what people wrote is text and never markup', () => {
    const page = pageOf(millRecord());
    expect(page).toContain('The key hangs in the shed'.replace('The', 'Wrong: the'));
    expect(page).toContain('Tarn &amp; Sons &quot;Deep&quot;');
  });
});
