/** One page in Debian's Chromium against the invented farm: what goes wrong on it (console, faults, requests to anywhere else) fails the test. */
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { TestContext } from 'vitest';
import { buildPages } from './build-pages.ts';
import type { BuiltPages } from './build-pages.ts';
import { hasChromium, launchChromium, NO_CHROMIUM } from './chromium.ts';
import { startFakeServer } from './fake-server.ts';
import type { FakeServer } from './fake-server.ts';

export interface Looked {
  page: Page;
  web: FakeServer;
}

export interface Looker {
  look: (
    context: TestContext,
    width: number,
    see: (looked: Looked) => Promise<void>,
    /** Parts of console errors that the test itself calls for: a refusal is one. */
    calledFor?: readonly string[],
  ) => Promise<void>;
  close: () => Promise<void>;
}

/** Builds the pages once; skips each test with the reason where there is no browser. */
export async function openLooker(): Promise<Looker> {
  if (!hasChromium) {
    const look: Looker['look'] = async (context) => context.skip(NO_CHROMIUM);
    return { look, close: async () => undefined };
  }
  const pages = await buildPages();
  const browser = await launchChromium();
  return {
    look: async (_context, width, see, calledFor = []) =>
      await lookAt({ browser, pages, width, calledFor }, see),
    close: async () => {
      await browser.close();
      pages.remove();
    },
  };
}

/** One page of one width, against a farm of its own. */
export async function lookAt(
  of: { browser: Browser; pages: BuiltPages; width: number; calledFor: readonly string[] },
  see: (looked: Looked) => Promise<void>,
): Promise<void> {
  const { browser, pages, width, calledFor } = of;
  const web = await startFakeServer(pages.folder);
  const open = await browser.newContext({
    viewport: { width, height: 900 },
    locale: 'en-US',
    timezoneId: 'Asia/Tokyo',
  });
  try {
    const page = await open.newPage();
    const wrong: string[] = [];
    page.on('console', (message) => message.type() === 'error' && wrong.push(`console: ${message.text()}`));
    page.on('pageerror', (error) => wrong.push(`page: ${error.message}`));
    page.on('request', (request) => {
      if (!request.url().startsWith(web.url) && !request.url().startsWith('data:'))
        wrong.push(`request: ${request.url()}`);
    });
    await see({ page, web });
    expect(wrong.filter((one) => !calledFor.some((part) => one.includes(part)))).toEqual([]);
  } finally {
    await open.close();
    await web.close();
  }
}
