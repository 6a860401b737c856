/**
 * Checks, water tests and what is due, in a real browser on a telephone's width, against the
 * invented farm.
 */
import ICAL from 'ical.js';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { TestContext } from 'vitest';
import { hasChromium, launchChromium, NO_CHROMIUM } from './support/chromium.ts';
import { builtPages } from './support/built-pages.ts';
import { startFakeServer, type FakeServer } from './support/fake-server.ts';

/** A photo that is one by its bytes: the smallest PNG. */
const PHOTO = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==',
  'base64',
);

let browser: Browser;
beforeAll(async () => {
  if (!hasChromium) return;
  browser = await launchChromium();
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
});

async function look(
  context: TestContext,
  see: (page: Page, web: FakeServer) => Promise<void>,
): Promise<void> {
  if (!hasChromium) context.skip(NO_CHROMIUM);
  const web = await startFakeServer(builtPages());
  const open = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: 'en-US' });
  try {
    const page = await open.newPage();
    const wrong: string[] = [];
    page.on('pageerror', (error) => wrong.push(`page: ${error.message}`));
    page.on('request', (request) => {
      if (!request.url().startsWith(web.url) && !request.url().startsWith('data:'))
        wrong.push(`request: ${request.url()}`);
    });
    await see(page, web);
    expect(wrong).toEqual([]);
  } finally {
    await open.close();
    await web.close();
  }
}

describe('a check', () => {
  test('is written down with its value and a photo; a wrong unit is told at its field, and nothing typed is lost', async (context) => {
    await look(context, async (page, web) => {
      await page.goto(`${web.url}#/well/house-hill`);
      await page.getByRole('link', { name: 'Checks' }).click();
      const check = page.getByRole('article', { name: 'Tank precharge' });
      await check.getByText('38 psi, 2 psi below the').waitFor();
      await check.getByText('Record this check').click();
      await check.getByLabel('Air pressure as found').fill('36');
      await check.getByLabel('Value after the work').fill('38 psi');
      await check.getByLabel('Note').fill('Valve cap was missing');
      await check.getByLabel('Your name').first().fill('Ines');
      await check
        .getByLabel('Photo', { exact: true })
        .setInputFiles({ name: 'tank.png', mimeType: 'image/png', buffer: PHOTO });
      await check.getByRole('button', { name: 'Save' }).click();
      await check.getByText('Must be a pressure in kPa, psi or bar').waitFor();
      expect(await check.getByLabel('Note').inputValue()).toBe('Valve cap was missing');
      expect(await check.getByLabel('Air pressure as found').getAttribute('aria-invalid')).toBe('true');
      await check.getByLabel('Air pressure as found').fill('36 psi');
      await check.getByRole('button', { name: 'Save' }).click();
      await check.getByText('Done before').click();
      await check.getByText('Found 36 psi, left 38 psi.').waitFor();
      await check.getByText(/^Due .* 2027, in 12 months$/).waitFor();
      const paper = await check.getByRole('link', { name: 'Photo or document' }).getAttribute('href');
      expect(await (await fetch(new URL(paper ?? '', web.url))).arrayBuffer()).toEqual(
        Uint8Array.from(PHOTO).buffer,
      );
    });
  });

  test('of one’s own comes round, and is put off again', async (context) => {
    await look(context, async (page, web) => {
      await page.goto(`${web.url}#/well/house-hill/checks`);
      await page.getByText('Add a check: a filter').click();
      await page.getByLabel('What to check').fill('Change the sediment filter');
      await page.getByRole('button', { name: 'Add', exact: true }).click();
      await page.getByText('Enter the interval, the day').waitFor();
      expect(await page.getByLabel('What to check').inputValue()).toBe('Change the sediment filter');
      const adding = page.getByRole('region', { name: 'Your own check' });
      await adding.getByLabel('Interval in days').fill('90');
      await adding.getByLabel('Note').fill(`https://filters.example/${'x'.repeat(300)}`);
      await adding.getByRole('button', { name: 'Add', exact: true }).click();
      const own = page.getByRole('article', { name: 'Change the sediment filter' });
      await own.getByText('No recorded date.').waitFor();
      // A long word makes the page no wider than the telephone.
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
      await own.getByText('Change the schedule').click();
      await own.getByRole('button', { name: 'Not needed at this well' }).click();
      await own.waitFor({ state: 'detached' });
    });
  });

  test('stands in a calendar that a calendar program reads', async (context) => {
    await look(context, async (page, web) => {
      await page.goto(`${web.url}#/well/house-hill/checks`);
      const address = await page.locator('.address.here').textContent();
      expect(address).toBe(`${web.url.replace(/\/$/, '')}/calendar.ics?well=house-hill`);
      const events = new ICAL.Component(
        ICAL.parse(await (await fetch(address ?? '')).text()),
      ).getAllSubcomponents('vevent');
      const dated = await page.locator('article.is-due, article.is-overdue, article.is-later').count();
      expect(dated).toBeGreaterThan(0);
      // And one for all that nobody wrote down.
      expect(events).toHaveLength(dated + 1);
      await page.getByRole('heading', { name: 'Checks with no recorded date' }).waitFor();
      await page
        .getByText(/^No recorded date\. Proposed: /)
        .first()
        .waitFor();
    });
  });
});

describe('a water test', () => {
  test('is copied from the report; nitrate must say as what, bacteria say what to do, and two tests are drawn', async (context) => {
    await look(context, async (page, web) => {
      await fetch(new URL('/api/wells/house-hill/entries', web.url), {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({
          entry: {
            kind: 'water-test',
            at: '2025-06-02T12:00:00Z',
            results: [{ analyte: 'Nitrate', value: '2.4', unit: 'mg/L as N' }],
          },
        }),
      });
      await page.goto(`${web.url}#/well/house-hill/water`);
      await page.getByText('Record a water test').click();
      await page.getByLabel('Sample date').fill('2026-07-10');
      await page.getByLabel('Value').nth(0).fill('present');
      await page.getByLabel('Value').nth(2).fill('14.2');
      await page.getByRole('button', { name: 'Save results' }).click();
      await page.getByText('Must say as what, as N or as NO3').waitFor();
      expect(await page.getByLabel('Value').nth(2).inputValue()).toBe('14.2');
      await page.getByLabel('Unit', { exact: true }).nth(2).fill('mg/L as NO3');
      await page.getByText('Read as: Nitrate, 3.21 mg/L as N').waitFor();
      await page.getByRole('button', { name: 'Save results' }).click();
      await page.getByRole('note').getByText('Do not drink this water, and').waitFor();
      await page.getByRole('note').getByText('Call the health department').waitFor();
      await page.getByText('Primary limit 10 mg/L as N: not over it.').first().waitFor();
      await page.getByRole('img', { name: /^Nitrate: first 2.4 mg\/L as N, last 3.21 mg\/L as N/ }).waitFor();
      await page.getByText('Sources of the limits').first().click();
      await page
        .getByText(/40 CFR 141\.62\(b\)\(7\)/)
        .first()
        .waitFor();
    });
  });

  test('is due at once after a flood', async (context) => {
    await look(context, async (page, web) => {
      await page.goto(`${web.url}#/well/house-hill/water`);
      await page.getByText('Record an event').click();
      await page.getByText('leave the pump off and do not drink the water').waitFor();
      await page.getByRole('button', { name: 'Save' }).click();
      await page.getByText('Saved: a test is due.').waitFor();
      await page.getByText(/Flood on 14 July\./).waitFor();
    });
  });
});

describe('what is due on all wells', () => {
  test('is grouped by well, one line a visit, and leads to the well’s checks', async (context) => {
    await look(context, async (page, web) => {
      await page.goto(web.url);
      await page.getByRole('link', { name: 'Due', exact: true }).click();
      await page.getByRole('heading', { level: 1, name: 'Due checks' }).waitFor();
      await page.getByLabel('within a year').check();
      await page.getByText(/checks? at 4 wells of 4/).waitFor();
      await page.getByRole('heading', { name: 'Never recorded' }).waitFor();
      await page.getByText('do not count as overdue').waitFor();
      await page.getByText('Ready for freezing weather').first().waitFor();
      await page.getByRole('link', { name: 'Mill yard' }).first().click();
      await page.getByRole('heading', { level: 1, name: 'Checks, Mill yard' }).waitFor();
    });
  });
});
