/**
 * Every page in a language that nobody speaks (tests/support/pseudo-locale.ts): what is left
 * outside its marks is no text of the catalogue, so it must be data.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, test } from 'vitest';
import type { ViteDevServer } from 'vite';
import { buildPseudoPages, openPseudoModules, withoutMarked } from '../support/pseudo-locale.ts';
import { hasChromium, launchChromium } from './support/chromium.ts';
import { FARM_NOW_MS } from './support/farm.ts';
import type * as FakeServerModule from './support/fake-server.ts';

let pages: Awaited<ReturnType<typeof buildPseudoPages>>;
let browser: Browser;
let modules: ViteDevServer;
let server: FakeServerModule.FakeServer;
beforeAll(async () => {
  if (!hasChromium) return;
  pages = await buildPseudoPages();
  browser = await launchChromium();
  modules = await openPseudoModules();
  // What the server says on the pages comes from the catalogue, too.
  const loaded = await modules.ssrLoadModule('/tests/browser/support/fake-server.ts');
  // oxlint-disable-next-line typescript/no-unsafe-type-assertion
  server = await (loaded as typeof FakeServerModule).startFakeServer(pages.folder);
});
afterAll(async () => {
  if (!hasChromium) return;
  await server.close();
  await browser.close();
  await modules.close();
  pages.remove();
});

const LONG_RUN = encodeURIComponent('orchard/p1/long-run/1784039400000');
const SHORT_CYCLING = encodeURIComponent(`north-paddock/p1/short-cycling/${FARM_NOW_MS - 4 * 86_400_000}`);

const PAGES = [
  '#/',
  '#/due',
  '#/parts',
  '#/parts/control-box',
  '#/new-well',
  '#/nodes',
  '#/refused',
  '#/nothing/here',
  '#/well/orchard',
  '#/well/north-paddock',
  `#/alarm/${LONG_RUN}`,
  `#/alarm/${SHORT_CYCLING}`,
  ...[
    'card',
    'visit',
    'readings',
    'checks',
    'water',
    'figures',
    'yield',
    'labels',
    'documents',
    'export',
  ].map((page) => `#/well/north-paddock/${page}`),
];

/** Words that are no text of a page, each list with its reason. */
const DATA: readonly (readonly [reason: string, words: string])[] = [
  ['the program', 'Stillwell'],
  ['wells and sites', 'Orchard Mill yard North paddock House hill Harrow bend'],
  [
    'nodes, channels and topics',
    'creek trough tarn clamp house hill mill yard north paddock orchard wells readings current pressure',
  ],
  ['symbols of units', 'Pa psi gal gpm ft hp min mm in ohm AWG day days'],
  [
    'months, weekdays and hours as Intl writes them',
    'January February March April May June July August September October November December Jan Feb Mar Apr Jun Jul Aug Sep Oct Nov Dec Mon Tue Wed Thu Fri Sat Sun Friday am pm',
  ],
  ['addresses', 'http calendar ics well'],
  ['examples of what is written on a card', 'home farm America Denver steel poly copper black red softener'],
];

const ALLOWED = new Set(DATA.flatMap(([, words]) => words.split(' ')));

describe.skipIf(!hasChromium)('nothing on a page stands outside the catalogue', () => {
  // Five at a time: most of a page's seconds are waiting for it to be still.
  test.concurrent.for(PAGES)('%s', async (address, { expect }) => {
    const page = await browser.newPage({ locale: 'en-US', timezoneId: 'Asia/Tokyo' });
    await page.goto(`${server.url}${address}`);
    await page.locator('h1').first().waitFor();
    await page.waitForLoadState('networkidle').catch(() => undefined);
    const left = (await textsOf(page)).flatMap((text) => {
      const words = (withoutMarked(text).match(/\p{L}[\p{L}’]+/gu) ?? []).filter(
        (word) => !ALLOWED.has(word),
      );
      return words.length === 0 ? [] : [`${words.join(' ')} | ${text}`];
    });
    await page.close();
    expect([...new Set(left)]).toEqual([]);
  });
});

/** All that a person can read or hear of a page, folded parts included; code is left out. */
async function textsOf(page: Page): Promise<string[]> {
  const texts: unknown = await page.evaluate(`(async () => {
    for (let round = 0; round < 3; round += 1) {
      for (const one of document.querySelectorAll('details')) one.open = true;
      await new Promise((done) => setTimeout(done, 300));
    }
    const texts = [document.title];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode())
      if (!node.parentElement.closest('script, style, pre, code, datalist, svg, noscript')) texts.push(node.data);
    for (const name of ['aria-label', 'aria-valuetext', 'title', 'placeholder', 'alt', 'data-name'])
      for (const node of document.querySelectorAll('[' + name + ']')) texts.push(node.getAttribute(name));
    return texts.map((text) => text.replace(/\\s+/g, ' ').trim()).filter((text) => text !== '');
  })()`);
  return Array.isArray(texts) ? texts.filter((text) => typeof text === 'string') : [];
}
