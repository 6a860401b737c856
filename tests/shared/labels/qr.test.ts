/** Codes read back by a decoder that has nothing to do with the encoder, from pixels. */
import jsqr from 'jsqr';
import { encode } from 'uqr';
import { describe, expect, test } from 'vitest';
import { MIN_MODULE_MM, makeQrCode, QUIET_ZONE_MODULES, type QrCode } from '../../../shared/labels/qr.ts';

/**
 * The package is CommonJS: what it exports is under `default` for the compiler, and is the function
 * itself where it runs.
 */
const readCode = jsqr as unknown as typeof jsqr.default;
const PIXELS = 4;

/** The path of a code on white with its light border, four pixels a module. */
function pixelsOf({ size, path }: QrCode): { data: Uint8ClampedArray; side: number } {
  const side = (size + 2 * QUIET_ZONE_MODULES) * PIXELS;
  const data = new Uint8ClampedArray(side * side * 4).fill(255);
  for (const [, x, y, w] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let row = 0; row < PIXELS; row++)
      for (let column = 0; column < Number(w) * PIXELS; column++) {
        const at =
          ((Number(y) + QUIET_ZONE_MODULES) * PIXELS + row) * side +
          (Number(x) + QUIET_ZONE_MODULES) * PIXELS +
          column;
        data.fill(0, at * 4, at * 4 + 3);
      }
  }
  return { data, side };
}

function readBack(code: QrCode): string | undefined {
  const { data, side } = pixelsOf(code);
  return readCode(data, side, side)?.data;
}

const FACTS = [
  'barn: Pressure tank, 2026-07-14',
  'precharge: 39 psi, with the tank empty of water and the pump off: 2 psi below the measured cut-in of 41 psi',
  'cut-in / cut-out: 40/60 psi, measured 41/59 psi, 2026-03-12',
  'tank: 44 gal',
  'tank drawdown, cut-out to cut-in: 10 gal, 24 % of the tank, calculated',
];

const codeOf = (lines: readonly string[], sideMm: number): QrCode | undefined =>
  makeQrCode(lines, sideMm, (text) => encode(text, { ecc: 'M', border: 0 }));

describe('qrOf', () => {
  test.each([
    ['a few facts', FACTS.slice(0, 2), 34.7],
    ['many facts', FACTS, 34.7],
    ['names in other letters', ['Pöytä: Pressure tank', 'place: vasemmalla, 20 °C, 井戸'], 34.7],
    ['large ones', FACTS, 60],
  ])('is read back to the very text: %s', (_what, lines, sideMm) => {
    const code = codeOf(lines, sideMm)!;
    expect(code.text).toBe(lines.join('\n'));
    expect(readBack(code)).toBe(code.text);
  });

  test('never has modules under 0.5 mm: whole lines are left out from the end instead', () => {
    for (let sideMm = 15; sideMm <= 60; sideMm += 0.7) {
      const code = codeOf(FACTS, sideMm);
      if (!code) continue;
      expect(code.moduleMm).toBeGreaterThanOrEqual(MIN_MODULE_MM);
      expect(code.size * code.moduleMm).toBeLessThanOrEqual(sideMm + 1e-9);
      expect(FACTS.join('\n').startsWith(code.text)).toBe(true);
      expect(readBack(code)).toBe(code.text);
    }
    expect(codeOf(FACTS, 20)?.text).toBe(FACTS[0]);
    expect(codeOf(FACTS, 10)).toBeUndefined();
    expect(codeOf([], 30)).toBeUndefined();
    expect(codeOf(['x'.repeat(5_000)], 60)).toBeUndefined();
  });

  test('bears a scratch: of the code of many facts a stripe of 5 % may be gone', () => {
    const code = codeOf(FACTS, 34.7)!;
    const { data, side } = pixelsOf(code);
    const from = Math.round(side * 0.55);
    const thick = Math.round(code.size * 0.05) * PIXELS;
    for (let row = from; row < from + thick; row++) data.fill(255, row * side * 4, (row * side + side) * 4);
    expect(readCode(data, side, side)?.data).toBe(code.text);
  });
});
