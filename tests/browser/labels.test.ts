/**
 * Labels as they are printed (Debian's Chromium): pages and their size, the height of capitals, and
 * codes read back from the picture.
 */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { TestContext } from 'vitest';
import type { Label } from '../../shared/api/labels.ts';
import { readCard } from '../../src/core/domain/read-card.ts';
import { hasChromium, launchChromium, NO_CHROMIUM } from './support/chromium.ts';
import { builtPages } from './support/built-pages.ts';
import { startFakeServer, type FakeServer } from './support/fake-server.ts';
import { readCode } from './support/read-code.ts';

/** CSS: an inch is 96 px and 25.4 mm. */
const MM_PER_PX = 25.4 / 96;
const SCALE = 4;

const WRITTEN = {
  well: 'house-hill',
  timeZone: 'America/Denver',
  pump: {
    maker: 'Hollow Creek',
    model: 'Deep Ten',
    motor: '1 hp',
    volts: '230 V',
    phase: 1,
    wires: 3,
    maxAmps: '9.8 A',
    controlBox: 'HC Box One',
    setDepth: '180 ft',
  },
  switch: '40/60',
  tank: { volume: '44 gal', precharge: '30 psi' },
  relief: '75 psi',
  hole: { depth: '245 ft', staticLevel: '62 ft', dropPipe: '1-1/4 in', dropPipeMaterial: 'poly' },
  electrical: {
    panel: 'main panel',
    breaker: '14/16',
    breakerAmps: '20 A',
    wires: { controlBox: ['R red', 'Y yellow', 'B black'] },
  },
  where: { tank: 'left of the furnace' },
};

let browser: Browser;
let web: FakeServer;
beforeAll(async () => {
  if (!hasChromium) return;
  browser = await launchChromium();
  web = await startFakeServer(builtPages());
  const read = readCard(WRITTEN);
  if ('problem' in read) throw new Error(read.problem);
  const farm = web.farm.deps.live;
  const wellBefore = farm.well.bind(farm);
  farm.well = async (name) => {
    const live = await wellBefore(name);
    return live && name === 'house-hill' ? { ...live, card: read.card } : live;
  };
});
afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await web.close();
});

async function onLabels(
  context: TestContext,
  well: string,
  see: (page: Page) => Promise<void>,
): Promise<void> {
  if (!hasChromium) context.skip(NO_CHROMIUM);
  const open = await browser.newContext({
    viewport: { width: 1280, height: 900 },
    deviceScaleFactor: SCALE,
    locale: 'en-US',
  });
  try {
    const page = await open.newPage();
    page.setDefaultTimeout(15_000);
    const wrong: string[] = [];
    page.on('console', (message) => message.type() === 'error' && wrong.push(message.text()));
    page.on('pageerror', (error) => wrong.push(error.message));
    await page.goto(`${web.url}#/well/${well}/labels`);
    await page.getByRole('heading', { name: 'Sheets' }).waitFor();
    await see(page);
    expect(wrong).toEqual([]);
  } finally {
    await open.close();
  }
}

async function onSheet(page: Page, name: string): Promise<void> {
  await page.locator('.label-choice select').first().selectOption(name);
}

/**
 * Pages of a PDF by their boxes in points, as Chromium writes them: one object a page, not packed.
 */
function boxesOf(pdf: Buffer): [number, number][] {
  return [...pdf.toString('latin1').matchAll(/\/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]/g)].map(
    ([, w, h]) => [Number(w), Number(h)],
  );
}

const A4: [number, number] = [595.28, 841.89];
const LETTER: [number, number] = [612, 792];

describe('a sheet of labels prints on pages of its own size, and on none besides', () => {
  test.for([
    ['Plain Letter paper, 8 labels to cut out', LETTER, 1],
    ['Plain A4 paper, 8 labels to cut out', A4, 1],
    ['Label stock 4 × 2 in, 10 on Letter paper', LETTER, 1],
    ['Label stock 4 × 3-1/3 in, 6 on Letter paper', LETTER, 1],
    ['Label stock 99.1 × 67.7 mm, 8 on A4 paper', A4, 1],
    ['Label stock 99.1 × 93.1 mm, 6 on A4 paper', A4, 1],
    ['Plain Letter paper, 2 large labels to cut out', LETTER, 3],
    ['Plain A4 paper, 2 large labels to cut out', A4, 3],
  ] as const)('%s', async ([sheet, size, count], context) => {
    await onLabels(context, 'house-hill', async (page) => {
      await onSheet(page, sheet);
      const boxes = boxesOf(await page.pdf({ preferCSSPageSize: true }));
      expect(boxes).toHaveLength(count);
      for (const [w, h] of boxes) {
        // Chromium rounds a page to its own pixels: a third of a point, 0.1 mm.
        expect(Math.abs(w - size[0])).toBeLessThan(0.5);
        expect(Math.abs(h - size[1])).toBeLessThan(0.5);
      }
    });
  });

  test('from the last free place they go over to a second sheet', async (context) => {
    await onLabels(context, 'house-hill', async (page) => {
      await onSheet(page, 'Label stock 99.1 × 67.7 mm, 8 on A4 paper');
      await page.getByLabel(/^First unused label/).selectOption('6');
      expect(boxesOf(await page.pdf({ preferCSSPageSize: true }))).toHaveLength(2);
      await page.getByRole('checkbox', { name: 'Well head' }).uncheck();
      await page.getByRole('checkbox', { name: 'Well pump breaker' }).uncheck();
      expect(boxesOf(await page.pdf({ preferCSSPageSize: true }))).toHaveLength(1);
    });
  });
});

interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** Where the elements stand in the document as it is printed, in CSS px. */
async function boxesIn(page: Page, selector: string): Promise<Box[]> {
  return await page.evaluate<Box[]>(`[...document.querySelectorAll('${selector}')].map((node) => {
    const { x, y, width, height } = node.getBoundingClientRect();
    return { x: x + scrollX, y: y + scrollY, width, height };
  })`);
}

/**
 * Height of a capital of each main figure on the sheets, mm, by the font that the browser really
 * takes.
 */
const CAPITALS = `[...document.querySelectorAll('.label-sheet text[font-weight="700"][font-size="5.2"]')].map((node) => {
  const { fontFamily, fontWeight } = getComputedStyle(node);
  const pen = document.createElement('canvas').getContext('2d');
  pen.font = fontWeight + ' 500px ' + fontFamily;
  const sheet = node.ownerSVGElement;
  const mmPerUnit = (sheet.getBoundingClientRect().width * 25.4) / 96 / sheet.viewBox.baseVal.width;
  return (pen.measureText('H').actualBoundingBoxAscent / 500) * 5.2 * mmPerUnit;
})`;

describe('what is printed can be read', () => {
  test.for([
    ['house-hill', 'Label stock 4 × 2 in, 10 on Letter paper'],
    ['house-hill', 'Label stock 99.1 × 67.7 mm, 8 on A4 paper'],
    ['orchard', 'Plain Letter paper, 8 labels to cut out'],
  ] as const)(
    'every code of %s, on %s, holds the facts in modules of 0.5 mm',
    async ([well, sheet], context) => {
      await onLabels(context, well, async (page) => {
        await onSheet(page, sheet);
        await page.emulateMedia({ media: 'print' });
        const { us } = (await (await fetch(`${web.url}api/wells/${well}/labels`)).json()) as { us: Label[] };
        const codes = await boxesIn(page, '.label-sheet .label-code');
        expect(codes).toHaveLength(us.length);
        for (const [at, box] of codes.entries()) {
          const around = 4 * (box.width / 60);
          const png = await page.screenshot({
            fullPage: true,
            clip: {
              x: box.x - around,
              y: box.y - around,
              width: box.width + 2 * around,
              height: box.height + 2 * around,
            },
          });
          const code = readCode(png);
          const says = us[at]!.plainText.join('\n');
          expect(code?.text.split('\n')[0]).toBe(us[at]!.plainText[0]);
          expect(says.startsWith(code!.text)).toBe(true);
          expect((box.width * MM_PER_PX) / (17 + 4 * code!.version)).toBeGreaterThanOrEqual(0.4999);
        }
      });
    },
  );

  test('capitals of main figures are 3.5 mm high and more, and the sheet is as large as its paper', async (context) => {
    await onLabels(context, 'house-hill', async (page) => {
      await page.emulateMedia({ media: 'print' });
      const heights = await page.evaluate<number[]>(CAPITALS);
      expect(heights.length).toBeGreaterThan(10);
      for (const mm of heights) expect(mm).toBeGreaterThanOrEqual(3.5);
      const [sheet] = await boxesIn(page, '.label-sheet svg');
      expect(sheet!.width * MM_PER_PX).toBeCloseTo(215.9, 1);
      expect(sheet!.height * MM_PER_PX).toBeCloseTo(279.4, 1);
    });
  });

  test('nothing but the sheets is printed', async (context) => {
    await onLabels(context, 'house-hill', async (page) => {
      await page.emulateMedia({ media: 'print' });
      for (const words of ['Labels', 'Stillwell monitors and notifies', 'Preview'])
        expect(await page.getByText(words).first().isVisible()).toBe(false);
      const [sheet] = await boxesIn(page, '.label-sheet svg');
      expect([sheet!.x, sheet!.y]).toEqual([0, 0]);
    });
  });
});
