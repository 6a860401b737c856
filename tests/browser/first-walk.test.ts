/**
 * The first walk of somebody who just bought a house, on a telephone's screen and in one go:
 * nothing, a new well, its card, the first reference readings by the guide from a node's live
 * readings, labels as PDF, the calendar subscribed to.
 */
import { networkInterfaces } from 'node:os';
import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { TestContext } from 'vitest';
import { localAddresses } from '../../src/server/local-networks.ts';
import { builtPages } from './support/built-pages.ts';
import { hasChromium, launchChromium, NO_CHROMIUM } from './support/chromium.ts';
import { startFirstHouse, type FirstHouse } from './support/first-house.ts';
import { readCode } from './support/read-code.ts';

const [OWN] = localAddresses(networkInterfaces());

async function writeCard(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Add a well' }).click();
  await page.getByLabel('Name of the well').fill('House');
  await page.getByLabel('Your name').first().fill('Ines');
  await page.getByRole('button', { name: 'Create well' }).click();
  await page.getByRole('heading', { level: 1, name: 'Card, House' }).waitFor();
  const open = (title: string) => page.locator('summary', { hasText: new RegExp(`^${title}`) }).click();
  await open('Pump');
  await page.getByLabel('Motor power').fill('3/4 hp');
  await page.getByLabel('Volts').first().fill('230 V');
  await page.getByLabel('Maximum amps').fill('8.6 A');
  await open('Switch');
  await page.getByLabel('Pressure switch', { exact: true }).first().fill('40/60');
  await open('Tank');
  await page.getByLabel('Volume').first().fill('44 gal');
  await page.getByLabel('Precharge').fill('38 psi');
  await page.getByRole('button', { name: 'Save card' }).click();
  await page.getByText('Saved.').waitFor();
}

async function takeReadings(page: Page, house: FirstHouse): Promise<void> {
  await page.getByRole('link', { name: 'Readings' }).click();
  await page.getByRole('button', { name: 'Start' }).click();
  await page.getByText('Open a tap and let the water run until the pump').waitFor();
  house.openTap();
  await house.untilRunning(true);
  await page.getByText('Now close the tap and draw no water').waitFor();
  house.shutTap();
  await house.untilRunning(false);
  await page.getByRole('button', { name: 'Save readings' }).waitFor();
  await page.getByLabel('Pin these').check();
  await page.getByRole('button', { name: 'Save readings' }).click();
  await page.getByText('Saved. The reading is in the list below.').waitFor();
  // As the simulated switch is set, 40/60 psi, and as its pump draws.
  await page.getByText(/^Pinned (39|40|41)(\.\d)? psi on 3 October by Ines/).waitFor();
  await page.getByText(/^Pinned (59|60|61)(\.\d)? psi on 3 October by Ines/).waitFor();
  await page.getByText(/^Pinned 7\.\d\d A on 3 October by Ines/).waitFor();
}

async function printLabels(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Labels' }).click();
  await page.getByRole('heading', { name: 'Sheets' }).waitFor();
  await page
    .getByRole('figure')
    .or(page.getByRole('img', { name: /^Label: .*measured/ }))
    .first()
    .waitFor();
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  expect(pdf.startsWith('%PDF-')).toBe(true);
  expect(pdf.match(/\/MediaBox/g)).toHaveLength(1);
}

async function subscribe(page: Page): Promise<string[]> {
  await page.getByRole('link', { name: 'Due', exact: true }).click();
  await page.getByRole('button', { name: 'Create an address for phones' }).click();
  const code = page.getByRole('img', { name: 'QR code of the calendar address' });
  await code.scrollIntoViewIfNeeded();
  const address = readCode(await code.screenshot())?.text ?? '';
  const feed = await (await fetch(address.replace(/^webcal:/, 'http:'))).text();
  const events = new ICAL.Component(ICAL.parse(feed)).getAllSubcomponents('vevent');
  return events.map((event) => String(event.getFirstPropertyValue('summary')));
}

test('from nothing to a card, first readings, labels and a calendar on the phone', async (context: TestContext) => {
  if (!hasChromium) context.skip(NO_CHROMIUM);
  if (OWN === undefined) context.skip('this machine is on no network');
  const house = await startFirstHouse(builtPages(), OWN);
  const browser = await launchChromium();
  const phone = { viewport: { width: 390, height: 844 }, locale: 'en-US', timezoneId: 'America/Denver' };
  const page = await (await browser.newContext({ ...phone, hasTouch: true })).newPage();
  const wrong: string[] = [];
  page.on('console', (message) => message.type() === 'error' && wrong.push(message.text()));
  page.on('pageerror', (error) => wrong.push(error.message));
  const fits = async (): Promise<void> =>
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
  try {
    await page.goto(house.url);
    await page.getByText('No wells yet.').waitFor();
    await fits();
    await writeCard(page);
    await fits();
    await page.getByRole('link', { name: 'House' }).click();
    await page.getByText('No data yet').waitFor();
    // Seen at once on the page that is open, with the sensors that it has.
    await house.plugIn('house');
    await page.getByText(/^Resting\.\s\d\d\spsi/).waitFor();
    await page.getByText('This well has no current').waitFor({ state: 'detached' });
    await fits();
    await takeReadings(page, house);
    await fits();
    await page.getByRole('link', { name: 'House' }).click();
    await printLabels(page);
    await fits();
    expect(await subscribe(page)).toContainEqual(expect.stringContaining('house'));
    await fits();
    expect(wrong).toEqual([]);
  } finally {
    await browser.close();
    await house.end();
  }
});
