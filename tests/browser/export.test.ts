/**
 * The export file's page in a real browser (Debian's Chromium), opened from a file as in ten years;
 * and the pages that keep documents and hand over.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { TestContext } from 'vitest';
import { buildExportPage, buildExportZip } from '../../src/logbook/export/export.ts';
import { millRecord, DOCUMENTS, sha256, STYLE } from '../support/export-well.ts';
import { hasChromium, launchChromium, NO_CHROMIUM } from './support/chromium.ts';
import { builtPages } from './support/built-pages.ts';
import { startFakeServer } from './support/fake-server.ts';
import type { FakeServer } from './support/fake-server.ts';

const byHash = new Map(Object.values(DOCUMENTS).map((bytes) => [sha256(bytes), bytes]));
const source = {
  record: millRecord(),
  style: STYLE,
  sha256,
  hasDocument: (hash: string) => byHash.has(hash),
  readDocument: (hash: string) => byHash.get(hash)!,
};

let browser: Browser;
let folder = '';
beforeAll(async () => {
  if (!hasChromium) return;
  folder = mkdtempSync(join(tmpdir(), 'packet-'));
  browser = await launchChromium();
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  rmSync(folder, { recursive: true });
});

function needChromium(context: TestContext): void {
  if (!hasChromium) context.skip(NO_CHROMIUM);
}

/** Console errors and faults of a page, and requests to anywhere but where `mine` says. */
function wrongsOf(page: Page, mine: (url: string) => boolean): string[] {
  const wrong: string[] = [];
  page.on('console', (message) => message.type() === 'error' && wrong.push(`console: ${message.text()}`));
  page.on('pageerror', (error) => wrong.push(`page: ${error.message}`));
  page.on('request', (request) => !mine(request.url()) && wrong.push(`request: ${request.url()}`));
  return wrong;
}

test('the packet’s page opens from a file, asks nothing of anybody, and shows the well', async (context) => {
  needChromium(context);
  const path = join(folder, 'mill.html');
  writeFileSync(path, buildExportPage(source));
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  const url = pathToFileURL(path).href;
  const wrong = wrongsOf(page, (asked) => asked === url);
  await page.goto(url);
  await page.getByRole('heading', { level: 1, name: 'Mill' }).waitFor();
  await page.getByRole('img', { name: /^Section through the well\. Static level 41 ft/ }).waitFor();
  expect(await page.getByRole('img').count()).toBe(11);
  await page.getByRole('link', { name: 'Documents' }).click();
  await page.getByText('papers/87a0bef37cfc6200-log-of-the-well.txt').waitFor();
  // Nothing lies beside the page on a telephone.
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
  // The parser of the browser found the same elements that were written: none was put in or thrown
  // out to mend it.
  expect(await page.evaluate('document.querySelectorAll("body > *").length')).toBe(4);
  expect(wrong).toEqual([]);
  const pdf = await page.pdf({ format: 'A4' });
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
  await page.close();
});

async function look(
  context: TestContext,
  see: (page: Page, web: FakeServer) => Promise<void>,
): Promise<void> {
  needChromium(context);
  const web = await startFakeServer(builtPages());
  const open = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'en-US' });
  try {
    const page = await open.newPage();
    const wrong = wrongsOf(page, (url) => url.startsWith(web.url) || url.startsWith('data:'));
    await see(page, web);
    // A refusal that is shown in words is no error of the page; the browser notes its status all
    // the same.
    expect(wrong.filter((line) => !line.includes('status of 409'))).toEqual([]);
  } finally {
    await open.close();
    await web.close();
  }
}

describe('papers', () => {
  test('several are kept at once, one is refused with its reason, and they are found, fetched and struck out', async (context) => {
    await look(context, async (page, web) => {
      await page.goto(`${web.url}#/well/orchard/documents`);
      await page.getByText('No documents yet.').waitFor();
      await page.getByLabel('Choose photos or files').setInputFiles([
        { name: 'image.jpg', mimeType: 'image/jpeg', buffer: DOCUMENTS.photo },
        { name: 'half.jpg', mimeType: 'image/jpeg', buffer: DOCUMENTS.photo.subarray(0, 14) },
        { name: 'manual.pdf', mimeType: 'application/pdf', buffer: Buffer.from('\u007fELF and more') },
        { name: '../../Well log.txt', mimeType: 'text/plain', buffer: DOCUMENTS.log },
        { name: 'empty.txt', mimeType: 'text/plain', buffer: Buffer.alloc(0) },
      ]);
      await page.getByText('It is empty.').waitFor();
      await page.getByLabel('Keywords').fill('Hollis Drilling');
      await page.getByLabel('Your name').first().fill('Ines');
      await page.getByRole('button', { name: 'Save 4 documents' }).click();
      await page.getByText('2 saved; 3 not saved, see each reason.').waitFor();
      await page.getByText('Cannot save half.jpg: the upload is incomplete').waitFor();
      await page.getByText(/Cannot save manual\.pdf: it must be a PDF, .* The content counts/).waitFor();
      await page.getByRole('heading', { level: 3, name: 'Well log.txt' }).waitFor();
      await page.getByLabel('Search names and words').fill('hollis LOG');
      await page.getByText('1 of 2 found.').waitFor();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('link', { name: 'Download' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('Well log.txt');
      await page.getByText('Void document').click();
      await page.getByLabel('Reason').fill('Of another well');
      await page.getByRole('button', { name: 'Void' }).click();
      await page.getByText('Voided: 1').click();
      await page.getByText(/by Ines: Of another well/).waitFor();
      const kinds = (await web.farm.deps.logbook.entries('orchard')).map(({ kind }) => kind);
      expect(kinds).toEqual(['paper', 'paper', 'struck']);
    });
  });
});

describe('handing over', () => {
  test('a packet is fetched, and one of another Stillwell is taken in with what was new', async (context) => {
    await look(context, async (page, web) => {
      await page.goto(`${web.url}#/well/orchard/export`);
      await page.getByRole('img', { name: /^Section through the well\. Pump set at 180 ft/ }).waitFor();
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('link', { name: 'Everything (ZIP)' }).click(),
      ]);
      expect(download.suggestedFilename()).toBe('orchard-export.zip');
      await page.goto(`${web.url}#/new-well`);
      const zip = Buffer.concat([...buildExportZip(source)]);
      const file = page.getByLabel('ZIP or page');
      await file.setInputFiles({
        name: 'mill.zip',
        mimeType: 'application/zip',
        buffer: zip.subarray(0, 5_000),
      });
      await page.getByRole('button', { name: 'Import' }).click();
      await page.getByText('Cannot import: the ZIP is incomplete').waitFor();
      await file.setInputFiles({ name: 'mill.zip', mimeType: 'application/zip', buffer: zip });
      await page.getByRole('button', { name: 'Import' }).click();
      await page.getByText('mill was added as a new well.').waitFor();
      await page
        .getByText('Added: 8 entries, 2 documents, 5 acts, 1 alarm, 1 baseline, 20 days, 80 cycles.')
        .waitFor();
      expect(await page.getByRole('link', { name: 'Open Mill' }).getAttribute('href')).toBe('#/well/mill');
    });
  });
});
