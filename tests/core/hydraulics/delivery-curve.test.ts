import { describe, expect, test } from 'vitest';
import { deliveryCurveOf, rateAt, type FillRecord } from '../../../src/core/hydraulics/delivery-curve.ts';

/**
 * Fills by their rate (1e-9/kPa/s), what of it is a draw seen before and after, and how rough it
 * is.
 */
function notes(text: string, rough = 4): FillRecord[] {
  return text.split(' ').flatMap((word) => {
    const [what, times = '1'] = word.split('x') as [string, string?];
    const [rate, steady = 0] = what.split('+').map(Number) as [number, number?];
    const note: FillRecord = [rate, 340, 0.95 * 7000, 340, null, 8, steady, rough];
    return Array.from({ length: Number(times) }, () => note);
  });
}

describe('levelOf', () => {
  test.each<[string, string, number]>([
    ['all alike', '7000x20', 7000],
    ['a draw in three of four runs', '7000x5 6500x4 6100x3 5600x3 5000x5', 7000],
    ['one wild fill over the others', '8200 7000x10 6000x9', 7000],
    ['draws that were taken for steady, over the others', '7900+900x5 7000x9 6200x6', 7000],
    ['a leak in every run, seen each time', '7000+700x20', 7000],
    ['a trickle in every run, not seen in half of them', '7000+700x9 6300x11', 7000],
    ['few fills: the steepest', '5200 6900 6100', 6900],
    ['few fills: the steepest that is no guess', '7900+2000 6900 6100', 6900],
    ['one fill', '6900', 6900],
    ['few fills, all far over what their second halves say: those', '9000 9100 9200', 0.95 * 7000],
  ])('%s', (_, text, rate) => {
    expect((deliveryCurveOf(notes(text)).rate * 1e9) / rate).toBeCloseTo(1, 1.8);
  });

  test('takes rough fills together where readings are rough', () => {
    const text = '7400 7300 7200 7100x2 7000x3 6900x3 6800x2 6700x2 6600x2 6500';
    expect(deliveryCurveOf(notes(text, 40)).rate * 1e9).toBeLessThan(7150);
  });

  test('moves fills to their middle pressure by the fall that the steepest show', () => {
    const seen = [300, 320, 340, 360, 380].map((kpa): FillRecord => [
      7000 * (1 - 0.002 * (kpa - 340)),
      kpa,
      0,
      kpa + 30,
      2000,
      0,
      0,
      4,
    ]);
    const level = deliveryCurveOf(seen);
    expect(level.kpa).toBe(340);
    expect(level.maxKpa).toBe(440);
    expect(rateAt(level, 340) * 1e9).toBeGreaterThan(6900);
  });
});
