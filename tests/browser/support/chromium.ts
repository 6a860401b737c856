/**
 * Debian's Chromium for tests: where it is, how it is started, and what is said where it is
 * missing.
 */
import { existsSync } from 'node:fs';
import { chromium } from 'playwright-core';
import type { Browser } from 'playwright-core';

const CHROMIUM = '/usr/bin/chromium';
const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export const hasChromium = existsSync(CHROMIUM);
/** Why a test is skipped where it is not there. */
export const NO_CHROMIUM = `Debian's chromium is not at ${CHROMIUM}`;

export async function launchChromium(): Promise<Browser> {
  return await chromium.launch({ executablePath: CHROMIUM, args: ARGS });
}
