/**
 * The card on a telephone's screen, against a whole server: from no well at all to a card, refused,
 * put right, and written by two at once.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { TestContext } from 'vitest';
import { hasChromium, launchChromium, NO_CHROMIUM } from './support/chromium.ts';
import { builtPages } from './support/built-pages.ts';
import { startTestServer } from '../support/test-server.ts';

/** A picture of one dot: the smallest PNG. */
const PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
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

interface Phone {
  page: Page;
  url: string;
  /** As another person's page would write it. */
  post: (path: string, body: object) => Promise<Response>;
  card: (well: string) => Promise<{ card: Record<string, unknown>; act?: string; by?: string }>;
}

async function onPhone(context: TestContext, see: (phone: Phone) => Promise<void>): Promise<void> {
  if (!hasChromium) context.skip(NO_CHROMIUM);
  const station = await startTestServer(builtPages());
  const open = await browser.newContext({
    viewport: { width: 390, height: 844 },
    locale: 'en-US',
    timezoneId: 'America/Denver',
    hasTouch: true,
  });
  try {
    const page = await open.newPage();
    const wrong: string[] = [];
    page.on('pageerror', (error) => wrong.push(error.message));
    await see({
      page,
      url: station.url,
      post: (path, body) =>
        fetch(`${station.url}api/wells/${path}`, {
          method: 'POST',
          headers: { 'content-type': 'application/json' },
          body: JSON.stringify(body),
        }),
      card: async (well) =>
        (await (await fetch(`${station.url}api/wells/${well}/card`)).json()) as Awaited<
          ReturnType<Phone['card']>
        >,
    });
    expect(wrong).toEqual([]);
  } finally {
    await open.close();
    await station.end();
  }
}

const section = (page: Page, title: string) => page.locator('summary', { hasText: new RegExp(`^${title}`) });
const save = (page: Page) => page.getByRole('button', { name: 'Save card' });

describe('card', () => {
  test('of a well from nothing: what cannot be is refused at its field, nothing typed is lost, what is odd is asked', async (context) => {
    await onPhone(context, async ({ page, url, card }) => {
      await page.goto(url);
      await page.getByRole('link', { name: 'Add a well' }).click();
      await page.getByLabel('Name of the well').fill('Barn by the creek');
      expect(await page.getByLabel('Time zone').inputValue()).toBe('America/Denver');
      await page.getByLabel('Your name').first().fill('Ines');
      await page.getByRole('button', { name: 'Create well' }).click();
      await page.getByRole('heading', { level: 1, name: 'Card, Barn by the creek' }).waitFor();

      await section(page, 'Pump').click();
      await page.getByLabel('Motor power').fill('3/4 hp');
      await page.getByLabel('Maximum amps').fill('nine');
      await section(page, 'Switch').click();
      await page.getByLabel('Pressure switch', { exact: true }).first().fill('40/60');
      await section(page, 'Tank').click();
      await page.getByLabel('Precharge').fill('45 psi');
      await section(page, 'Electrical').click();
      await page.getByLabel('Wires at the switch').fill('L1 black\nL2 red\n');
      await save(page).click();
      await page.getByText('must be a current in A: "nine"').waitFor();
      expect(await page.locator(':focus').getAttribute('id')).toBe('pump.maxAmps');
      expect(await page.getByLabel('Motor power').inputValue()).toBe('3/4 hp');
      expect((await card('barn-by-the-creek')).card).toEqual({
        well: 'barn-by-the-creek',
        timeZone: 'America/Denver',
      });

      await page.getByLabel('Maximum amps').fill('8 A');
      await save(page).click();
      await page.getByText('Saved.').waitFor();
      await page.getByText('The precharge, 45 psi, is over the cut-in, 40 psi').waitFor();
      expect(await card('barn-by-the-creek')).toMatchObject({
        by: 'Ines',
        card: {
          pump: { motor: '3/4 hp', maxAmps: '8 A' },
          switch: { points: '40/60' },
          tank: { precharge: '45 psi' },
          electrical: { wires: { switch: ['L1 black', 'L2 red'] } },
        },
      });
      // Who changed what: newest first, and the first card under it.
      await page.getByText('Pump: motor power: 3/4 hp').waitFor();
      await page.getByText(': first version').waitFor();
    });
  });

  test('what was typed outlives a way to another page and back, and can be undone', async (context) => {
    await onPhone(context, async ({ page, url, post, card }) => {
      await post('mill/card', { card: { well: 'mill', pump: { motor: '1 hp' } } });
      await page.goto(`${url}#/well/mill/card`);
      await section(page, 'Pump').click();
      await page.getByLabel('Motor power').fill('2 hp');
      await page.getByRole('link', { name: 'motor', exact: true }).click();
      await page.getByRole('heading', { name: 'When it fails' }).waitFor();
      await page.goBack();
      await page.getByText('Your earlier changes are restored').waitFor();
      await section(page, 'Pump').click();
      expect(await page.getByLabel('Motor power').inputValue()).toBe('2 hp');
      await page.getByRole('button', { name: 'Undo' }).click();
      expect(await page.getByLabel('Motor power').inputValue()).toBe('1 hp');
      await page.reload();
      await section(page, 'Pump').click();
      expect(await page.getByLabel('Motor power').inputValue()).toBe('1 hp');
      expect((await card('mill')).card).toEqual({ well: 'mill', pump: { motor: '1 hp' } });
    });
  });

  test('two write it at once: the second sees both, field by field, and chooses', async (context) => {
    await onPhone(context, async ({ page, url, post, card }) => {
      const first = { well: 'mill', pump: { motor: '1 hp', maxAmps: '9.8 A' }, owner: 'R. Alder' };
      await post('mill/card', { card: first, by: 'Ines' });
      await page.goto(`${url}#/new-well`);
      await page.getByLabel('Name of the well').fill('Mill');
      await page.getByRole('button', { name: 'Create well' }).click();
      await page.getByText('mill already has a card.').waitFor();
      const { act } = await card('mill');
      await page.goto(`${url}#/well/mill/card`);
      await section(page, 'Pump').click();
      await page.getByLabel('Motor power').fill('1-1/2 hp');
      await page.getByLabel('Set depth').fill('180 ft');
      const theirs = { ...first, pump: { motor: '3/4 hp', maxAmps: '9.8 A' }, firm: 'Larch Pumps' };
      expect((await post('mill/card', { card: theirs, basedOn: act, by: 'Tom' })).status).toBe(200);
      await page.getByLabel('Your name').fill('Ada');
      await save(page).click();
      await page.getByText('Tom changed this card after you opened it').waitFor();
      const motor = page.getByRole('group', { name: 'Pump: motor power' });
      await motor.getByText('Version of Tom: 3/4 hp').waitFor();
      await motor.getByText('Your version: 1-1/2 hp').waitFor();
      const settle = page.getByRole('button', { name: 'Save this version' });
      expect(await settle.isDisabled()).toBe(true);
      await motor.getByLabel('Your version').check();
      await settle.click();
      await page.getByText('Saved.').waitFor();
      // Ada's two fields, and Tom's that nobody else touched.
      expect(await card('mill')).toMatchObject({
        by: 'Ada',
        card: { ...theirs, pump: { motor: '1-1/2 hp', maxAmps: '9.8 A', setDepth: '180 ft' } },
      });
    });
  });

  test('a second pump has fields of its own, and a photo of the wiring stays with the card', async (context) => {
    await onPhone(context, async ({ page, url, post, card }) => {
      await post('mill/card', { card: { well: 'mill', pump: { motor: '1 hp' } } });
      await page.goto(`${url}#/well/mill/card`);
      await page.getByRole('button', { name: 'another pump' }).click();
      await section(page, 'Pump 2').click();
      await page.getByLabel('Motor power').last().fill('2 hp');
      await section(page, 'Electrical').click();
      const photo = page.getByLabel('Add a photo');
      // Where nobody has scrolled to, the browser loads no picture.
      await photo.scrollIntoViewIfNeeded();
      await photo.setInputFiles({ name: 'box.png', mimeType: 'image/png', buffer: PNG });
      await page.getByRole('img', { name: 'Photo 1 of the wiring' }).waitFor();
      await save(page).click();
      await page.getByText('Saved.').waitFor();
      expect((await card('mill')).card).toEqual({
        well: 'mill',
        pumps: { p1: { pump: { motor: '1 hp' } }, p2: { pump: { motor: '2 hp' } } },
        electrical: { photos: [expect.stringMatching(/^[0-9a-f]{64}$/)] },
      });
    });
  });

  test('fits the screen, and a thumb', async (context) => {
    await onPhone(context, async ({ page, url, post }) => {
      await post('mill/card', {
        card: { well: 'mill', where: { tank: 'left of the furnace '.repeat(9).trim() } },
      });
      await page.goto(`${url}#/well/mill/card`);
      await save(page).waitFor();
      for (const details of await page.locator('.card-form summary').all()) await details.click();
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
      const low = await page
        .locator('.card-form :is(input[type=text], select, textarea, button, summary)')
        .evaluateAll((all) =>
          all.filter((one) => one.getBoundingClientRect().height < 44).map((one) => one.outerHTML),
        );
      expect(low).toEqual([]);
    });
  });
});
