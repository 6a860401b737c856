import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

const css = readFileSync(new URL('../../shared/view/tones.css', import.meta.url), 'utf8');
const [light = '', dark = ''] = css.split('@media');

/** Relative luminance and contrast after WCAG 2.2, "relative luminance" and 1.4.3. */
function luminance(hex: string): number {
  const parts = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
  const [r = 0, g = 0, b = 0] = parts.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [high, low] = [luminance(a), luminance(b)].toSorted((x, y) => y - x);
  return ((high ?? 0) + 0.05) / ((low ?? 0) + 0.05);
}

function tone(sheet: string, name: string): string {
  return new RegExp(`--${name}: (#[0-9a-f]{6})`).exec(sheet)?.[1] ?? '';
}

test('contrast: black on white is 21, as WCAG says', () =>
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5));

describe.each([
  ['light', light],
  ['dark', dark],
])('%s: words stand out from what they are written on', (_scheme, sheet) => {
  test.each(['ink', 'soft', 'clay', 'water', 'moss'])('%s', (name) => {
    for (const ground of ['paper', 'sheet']) {
      expect(contrast(tone(sheet, name), tone(sheet, ground)), `${name} on ${ground}`).toBeGreaterThanOrEqual(
        4.5,
      );
    }
  });
});
