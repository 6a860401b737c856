/**
 * The calendar brought onto a telephone: its address made on the page, read back from the picture
 * of its code, fetched and parsed.
 */
import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openPageChecker, type PageChecker } from './support/page-check.ts';
import { readCode } from './support/read-code.ts';

let looker: PageChecker;
beforeAll(async () => {
  looker = await openPageChecker();
});
afterAll(() => looker.close());

/** What a telephone's camera sees of the page. */
async function scanned(page: Page): Promise<string> {
  const code = page.getByRole('img', { name: 'QR code of the calendar address' });
  await code.scrollIntoViewIfNeeded();
  return readCode(await code.screenshot())?.text ?? '';
}

/** As a telephone does: `webcal` is a name for a calendar at an http address. */
async function subscribe(address: string): Promise<{ status: number; wells: string[] }> {
  const answer = await fetch(address.replace(/^webcal:/, 'http:'));
  if (!answer.ok) return { status: answer.status, wells: [] };
  const events = new ICAL.Component(ICAL.parse(await answer.text())).getAllSubcomponents('vevent');
  const wells = events.map((event) => String(event.getFirstPropertyValue('categories')));
  return { status: answer.status, wells: [...new Set(wells)].toSorted() };
}

describe('the calendar on a phone', () => {
  test('of all wells: made, scanned, read; with a new address the old one is gone', async (context) => {
    await looker.check(context, 390, async ({ page, web }) => {
      await page.goto(`${web.url}#/due`);
      await page.getByRole('heading', { name: 'On a phone' }).waitFor();
      await page.getByText('Anyone on this network with the address').waitFor();
      await page.getByRole('button', { name: 'Create an address for phones' }).click();
      await page.getByRole('link', { name: 'Subscribe on this device' }).waitFor();
      const first = await scanned(page);
      expect(first).toMatch(/^webcal:\/\/127\.0\.0\.1:\d+\/[a-z2-7]{28}\/checks\.ics$/);
      expect(await page.getByRole('link', { name: 'Subscribe on this device' }).getAttribute('href')).toBe(
        first,
      );
      expect(await page.locator('.scan .address').textContent()).toBe(first.replace('webcal', 'http'));
      expect(await subscribe(first)).toEqual({
        status: 200,
        wells: ['house-hill', 'mill-yard', 'north-paddock', 'orchard'],
      });
      await page.getByText('If the wrong person has the address').click();
      await page.getByRole('button', { name: 'Create a new address' }).click();
      await page.getByText('The old address no longer works').waitFor();
      const second = await scanned(page);
      expect([(await subscribe(first)).status, (await subscribe(second)).status]).toEqual([404, 200]);
      await page.getByRole('button', { name: 'Remove the address' }).click();
      await page.getByRole('button', { name: 'Create an address for phones' }).waitFor();
      expect((await subscribe(second)).status).toBe(404);
    });
  });

  test('of one well: an address of its own, on its page of checks', async (context) => {
    await looker.check(context, 390, async ({ page, web }) => {
      await page.goto(`${web.url}#/well/orchard/checks`);
      await page.getByRole('button', { name: 'Create an address for phones' }).click();
      await page.getByRole('link', { name: 'Subscribe on this device' }).waitFor();
      expect(await subscribe(await scanned(page))).toEqual({ status: 200, wells: ['orchard'] });
    });
  });

  test('where this computer has several addresses, the code is of the one that is chosen', async (context) => {
    await looker.check(context, 1280, async ({ page, web }) => {
      const { port } = web.farm.calendarServer.now as { port: number };
      web.farm.calendarServer.now = { is: 'open', port, hosts: ['192.168.7.20', '127.0.0.1'] };
      await page.goto(`${web.url}#/due`);
      await page.getByRole('button', { name: 'Create an address for phones' }).click();
      await page.getByRole('link', { name: 'Subscribe on this device' }).waitFor();
      expect(await scanned(page)).toContain('//192.168.7.20:');
      await page.getByLabel('127.0.0.1').check();
      expect((await subscribe(await scanned(page))).status).toBe(200);
    });
  });

  test('where this computer answers nobody: the command that opens it, or why it could not be opened', async (context) => {
    await looker.check(context, 390, async ({ page, web }) => {
      web.farm.calendarServer.now = { is: 'closed', hosts: ['192.168.7.20'] };
      await page.goto(`${web.url}#/due`);
      await page.getByText('stillwell serve --listen 192.168.7.20').waitFor();
      expect(await page.getByRole('button', { name: 'Create an address' }).count()).toBe(0);
      web.farm.calendarServer.now = { is: 'closed', hosts: [], error: 'Another program has this port' };
      await page.goto(`${web.url}#/well/orchard/checks`);
      await page.getByText('Another program has this port.').waitFor();
    });
  });
});
