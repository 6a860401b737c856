/**
 * One page in Debian's Chromium against the invented farm: what goes wrong on it (console, faults,
 * requests to anywhere else) fails the test.
 */
import type { Browser, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { TestContext } from 'vitest';
import { builtPages } from './built-pages.ts';
import { hasChromium, launchChromium, NO_CHROMIUM } from './chromium.ts';
import { startFakeServer } from './fake-server.ts';
import type { FakeServer } from './fake-server.ts';

export interface OpenedPage {
  page: Page;
  web: FakeServer;
}

export interface PageChecker {
  check: (
    context: TestContext,
    width: number,
    body: (opened: OpenedPage) => Promise<void>,
    /** Parts of console errors that the test itself calls for: a refusal is one. */
    expectedErrors?: readonly string[],
  ) => Promise<void>;
  close: () => Promise<void>;
}

/** Builds the pages once; skips each test with the reason where there is no browser. */
export async function openPageChecker(): Promise<PageChecker> {
  if (!hasChromium) {
    const check: PageChecker['check'] = async (context) => context.skip(NO_CHROMIUM);
    return { check, close: async () => undefined };
  }
  const browser = await launchChromium();
  return {
    check: async (_context, width, body, expectedErrors = []) =>
      await checkPage({ browser, width, expectedErrors }, body),
    close: async () => {
      await browser.close();
    },
  };
}

/** One page of one width, against a farm of its own. */
export async function checkPage(
  options: { browser: Browser; width: number; expectedErrors: readonly string[] },
  body: (opened: OpenedPage) => Promise<void>,
): Promise<void> {
  const { browser, width, expectedErrors } = options;
  const web = await startFakeServer(builtPages());
  const open = await browser.newContext({
    viewport: { width, height: 900 },
    locale: 'en-US',
    timezoneId: 'Asia/Tokyo',
  });
  try {
    const page = await open.newPage();
    const problems: string[] = [];
    page.on(
      'console',
      (message) => message.type() === 'error' && problems.push(`console: ${message.text()}`),
    );
    page.on('pageerror', (error) => problems.push(`page: ${error.message}`));
    page.on('request', (request) => {
      if (!request.url().startsWith(web.url) && !request.url().startsWith('data:'))
        problems.push(`request: ${request.url()}`);
    });
    await body({ page, web });
    expect(problems.filter((one) => !expectedErrors.some((part) => one.includes(part)))).toEqual([]);
  } finally {
    await open.close();
    await web.close();
  }
}
