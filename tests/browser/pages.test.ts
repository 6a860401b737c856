/** The pages in a real browser (Debian's Chromium), against the invented farm. */
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { TestContext } from 'vitest';
import { hasChromium, launchChromium, NO_CHROMIUM } from './support/chromium.ts';
import { depth } from '../support/depth.ts';
import { builtPages } from './support/built-pages.ts';
import { FARM_NOW_MS } from './support/farm.ts';
import { startFakeServer } from './support/fake-server.ts';
import { checkPage, type OpenedPage } from './support/page-check.ts';

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
  width: number,
  see: (looked: OpenedPage) => Promise<void>,
): Promise<void> {
  if (!hasChromium) context.skip(NO_CHROMIUM);
  await checkPage({ browser, width, expectedErrors: [] }, see);
}

const WIDTHS = [390, 1280];

describe('from the list to a well to an acknowledged alarm', () => {
  test.for(WIDTHS)('at %i px', async (width, context) => {
    await look(context, width, async ({ page, web }) => {
      await page.goto(web.url);
      await page.getByRole('heading', { level: 1, name: 'Wells' }).waitFor();
      const names = await page.getByRole('heading', { level: 2 }).getByRole('link').allTextContents();
      // Worst first.
      expect(names).toEqual(['Orchard', 'Mill yard', 'North paddock', 'House hill']);
      await page.getByRole('link', { name: 'Orchard' }).press('Enter');
      await page.getByRole('heading', { level: 1, name: 'Orchard' }).waitFor();
      await page.getByText('Act today').first().waitFor();
      await page.getByRole('img', { name: /^Pressure, last 15 minutes: from/ }).waitFor();
      await page.getByLabel('Your name').first().fill('Ines');
      await page.getByRole('button', { name: 'Acknowledge' }).click();
      await page.getByText(/^Acknowledged .* by Ines\./).waitFor();
      expect(web.farm.acts).toEqual([
        { act: { kind: 'acknowledged', well: 'orchard', pump: 'p1', alarm: 'long-run' }, by: 'Ines' },
      ]);
      // The clock on the wall of the farm, not of the browser: 18:15 UTC is a quarter past noon
      // there.
      await page
        .getByText(/Tue 14 July, 8:30 am/)
        .first()
        .waitFor();
    });
  });
});

describe('what people do', () => {
  const alarm = `#/alarm/${encodeURIComponent(`north-paddock/p1/short-cycling/${FARM_NOW_MS - 4 * 86_400_000}`)}`;

  test('an alarm is read in full and put aside for a week', async (context) => {
    await look(context, 390, async ({ page, web }) => {
      await page.goto(`${web.url}#/well/north-paddock`);
      await page.getByRole('link', { name: 'Evidence and other causes' }).click();
      await page.getByRole('heading', { level: 1, name: 'Pump starts too often' }).waitFor();
      await page.getByRole('heading', { name: 'Most likely cause' }).waitFor();
      await page.getByText('Close all taps and watch.').waitFor();
      await page.getByRole('link', { name: 'pressure tank' }).first().click();
      await page.getByRole('heading', { name: 'When it fails' }).waitFor();
      await page.goBack();
      await page.getByText('When this alarm can be wrong').waitFor();
      await page.getByText('Shelve the alarm').click();
      await page.getByRole('combobox', { name: 'For' }).selectOption('7 days');
      await page.getByRole('button', { name: 'Shelve' }).click();
      await expect.poll(() => web.farm.acts.length).toBe(1);
      expect(web.farm.acts[0]?.act).toMatchObject({
        kind: 'shelved',
        well: 'north-paddock',
        alarm: 'short-cycling',
        until: expect.stringMatching(/^2026-07-21T18:/) as string,
      });
    });
  });

  test('an alarm that is over, and one that never was, are said to be so', async (context) => {
    await look(context, 1280, async ({ page, web }) => {
      await page.goto(`${web.url}${alarm.replace('short-cycling', 'leak')}`);
      await page.getByRole('heading', { level: 1, name: 'Unknown alarm' }).waitFor();
      const over = `house-hill/p1/node-silent/${FARM_NOW_MS - 56 * 86_400_000}`;
      await page.goto(`${web.url}#/alarm/${encodeURIComponent(over)}`);
      await page.getByText(/Cleared .*the cause may still be there/).waitFor();
      expect(await page.getByRole('button', { name: 'Acknowledge' }).count()).toBe(0);
    });
  });

  test('guests are entered in one line, as it was understood, and normal is pinned', async (context) => {
    await look(context, 390, async ({ page, web }) => {
      await page.goto(`${web.url}#/well/house-hill`);
      await page.getByText('Guests, a garden').click();
      const line = page.getByRole('textbox', { name: 'What, and until when' });
      await line.fill('guests until Tuesday');
      await page.getByText('Today is Tuesday: 14 July or 21 July?').waitFor();
      await page.getByRole('button', { name: 'Save' }).click();
      expect(web.farm.acts).toEqual([]);
      await line.fill('guests until Sunday');
      await page.getByText('Read as: “guests”, until the end of Sun 19 July.').waitFor();
      await page.getByRole('button', { name: 'Save' }).click();
      await page.getByText('Saved.').waitFor();
      await page.getByText('History').waitFor();
      await page.getByText(', in force until the end of Sun 19 July').waitFor();
      await page.getByText('Pin normal values').click();
      await page.getByRole('textbox', { name: 'Running amps' }).fill('7.9 A');
      await page.getByRole('button', { name: 'Pin', exact: true }).click();
      await page.getByText('Pinned.').waitFor();
      expect(web.farm.acts.map(({ act }) => act)).toEqual([
        { kind: 'expected', well: 'house-hill', text: 'guests', until: '2026-07-20T06:00:00.000Z' },
        { kind: 'pinned', well: 'house-hill', pump: 'p1', amps: '7.9 A' },
      ]);
    });
  });
});

test('a pending node is approved', async (context) => {
  await look(context, 390, async ({ page, web }) => {
    await page.goto(`${web.url}#/nodes`);
    await page.getByRole('button', { name: 'Approve creek-trough' }).click();
    await page.getByText('None.').waitFor();
    expect(web.farm.nodes.every((node) => node.approved)).toBe(true);
  });
});

test('units are switched everywhere and remembered', async (context) => {
  await look(context, 1280, async ({ page, web }) => {
    await page.goto(`${web.url}#/well/house-hill`);
    await page.getByText('40 psi to 60 psi').waitFor();
    await page.getByLabel('Metric').check();
    await page.getByText('276 kPa to 414 kPa').waitFor();
    await page.reload();
    await page.getByText('276 kPa to 414 kPa').waitFor();
  });
});

test('readings go on as they come', async (context) => {
  await look(context, 1280, async ({ page, web }) => {
    await page.goto(`${web.url}#/well/orchard`);
    const chart = page.getByRole('img', { name: /^Amps, last 15 minutes/ });
    await chart.waitFor();
    web.farm.emit({
      is: 'readings',
      well: 'orchard',
      columns: [{ channel: 'current', timesMs: [web.farm.clock.nowMs + 30_000], values: [13.7] }],
    });
    await page.getByRole('img', { name: /^Amps, last 15 minutes: from .* to 13\.7 A/ }).waitFor();
  });
});

test('a server that is gone is said so, and so is a well that is not', async (context) => {
  if (!hasChromium) context.skip(NO_CHROMIUM);
  const web = await startFakeServer(builtPages());
  const page = await browser.newPage();
  await page.goto(web.url);
  await page.getByRole('heading', { level: 1, name: 'Wells' }).waitFor();
  await page.goto(`${web.url}#/well/nowhere`);
  await page.getByText('Unknown well: nowhere').waitFor();
  await page.goto(`${web.url}#/`);
  await page.getByRole('link', { name: 'Orchard' }).waitFor();
  await web.close();
  await page.getByText('No connection to the server.').waitFor();
  await page.goto(`${web.url}#/nodes`);
  await page.getByText('The server does not answer.').waitFor();
  await page.close();
});

/**
 * What a person who reads by ear or by key needs, looked up in the page; each line is a lapse.
 * After WCAG 2.2, 1.1.1, 1.3.1, 2.4.2, 3.1.1, 4.1.2.
 */
const LAPSES = `(() => {
  const lapses = [];
  const say = (what, node) => lapses.push(what + ': ' + node.outerHTML.slice(0, 90));
  if (document.documentElement.lang !== 'en') lapses.push('no language');
  if (document.title === '') lapses.push('no title');
  if (document.querySelectorAll('main').length !== 1) lapses.push('not one main');
  let level = 0;
  for (const heading of document.querySelectorAll('h1,h2,h3,h4,h5,h6')) {
    const own = Number(heading.tagName[1]);
    if (own > level + 1) say('heading jumps', heading);
    level = own;
  }
  if (document.querySelectorAll('h1').length !== 1) lapses.push('not one h1');
  for (const node of document.querySelectorAll('a,button')) if (!(node.textContent.trim() || node.ariaLabel)) say('no name', node);
  for (const node of document.querySelectorAll('input')) if (!(node.labels?.length || node.ariaLabel)) say('no label', node);
  for (const node of document.querySelectorAll('svg,canvas,img')) {
    if (!node.closest('[aria-hidden=true]') && !node.closest('[role=img][aria-label]')) say('no words', node);
  }
  for (const node of document.querySelectorAll('[aria-labelledby]')) if (!document.getElementById(node.getAttribute('aria-labelledby'))) say('label missing', node);
  const ids = [...document.querySelectorAll('[id]')].map((node) => node.id);
  for (const id of ids) if (ids.indexOf(id) !== ids.lastIndexOf(id)) lapses.push('id twice: ' + id);
  const over = document.documentElement.scrollWidth - innerWidth;
  if (over > 0) lapses.push('wider than the window by ' + over + ' px');
  return lapses;
})()`;

const ADDRESSES: [hash: string, ready: string][] = [
  ['#/', 'House hill'],
  ['#/well/north-paddock', 'Nodes and sensors'],
  ['#/well/north-paddock', 'Do card and sensors agree?'],
  [
    `#/alarm/${encodeURIComponent(`orchard/p1/long-run/${FARM_NOW_MS - 3.75 * 3_600_000}`)}`,
    'Most likely cause',
  ],
  ['#/well/house-hill/labels', 'Sheets'],
  ['#/due', 'Due checks'],
  ['#/well/north-paddock/checks', 'Tank precharge'],
  ['#/well/north-paddock/water', 'Next test'],
  ['#/parts', 'Parts of a well'],
  ['#/parts/control-box', 'What to ask an installer'],
  ['#/nodes', 'Approved'],
  ['#/refused', 'Latest'],
  ['#/nothing/here', 'Not found'],
];

/**
 * The widths that one loaded page is looked at in. In short it is loaded in the narrow window,
 * which is then made wide.
 */
const LOADS = depth([WIDTHS], [[390], [1280]]);

describe('every page has its headings, names and labels, and fits the window', () => {
  test.for(ADDRESSES.flatMap(([hash, ready]) => LOADS.map((widths) => [hash, widths, ready] as const)))(
    '%s at %j px',
    async ([hash, widths, ready], context) => {
      await look(context, widths[0]!, async ({ page, web }) => {
        await page.goto(`${web.url}${hash}`);
        await page.getByRole('heading', { name: ready }).first().waitFor();
        await page
          .getByText(/^Loading/)
          .first()
          .waitFor({ state: 'detached' });
        for (const width of widths) {
          await page.setViewportSize({ width, height: 900 });
          expect([width, ...(await page.evaluate<string[]>(LAPSES))]).toEqual([width]);
        }
      });
    },
  );
});
