import { describe, expect, test } from 'vitest';
import {
  discardBlock,
  closeQuietDay,
  newQuietBlocks,
  addQuietReading,
  type LeakEstimate,
} from '../../../src/core/hydraulics/quiet-blocks.ts';
import { row } from './model.ts';

const AIR = 80_000;

/** A day's rest with a loss (L/h) that changes each twenty minutes. */
function dayOf(
  rates: number[],
  options: { noiseL?: number; everyS?: number } = {},
): LeakEstimate | undefined {
  const { noiseL = 0.4, everyS = 5 } = options;
  const random = row(3);
  const quiet = newQuietBlocks();
  let litres = 0;
  let atMs = 0;
  for (const rate of rates) {
    for (let s = 0; s < 1200; s += everyS) {
      litres += (rate * everyS) / 3600;
      atMs += everyS * 1000;
      addQuietReading(quiet, atMs, (litres + (random() - 0.5) * noiseL) / AIR, AIR);
    }
    discardBlock(quiet);
  }
  return closeQuietDay(quiet);
}

const steady = (rate: number, n: number): number[] => Array.from({ length: n }, () => rate);

describe('endQuietDay', () => {
  test.each<[string, number[], number]>([
    ['nothing lost', steady(0, 20), 0],
    ['a leak of 5 L/h', steady(5, 20), 120],
    ['a leak of 45 L/h', steady(45, 20), 1080],
    ['a leak of 200 L/h', steady(200, 20), 4800],
    [
      'a quiet night and draws of all sizes by day',
      [...steady(0, 8), 20, 35, 60, 90, 140, 15, 240, 70, 33],
      0,
    ],
    ['a leak under the same draws', [...steady(8, 8), 28, 43, 68, 98, 148, 23, 248, 78, 41], 192],
  ])('says of %s', (_, rates, want) => {
    const leak = dayOf(rates)!;
    expect(Math.abs(leak.leakLPerDay - want)).toBeLessThanOrEqual(Math.max(0, want * 0.15));
  });

  test('rests on readings a minute apart too', () => {
    expect(dayOf(steady(10, 40), { everyS: 60 })!.leakLPerDay / 240).toBeCloseTo(1, 0);
  });

  test('says nothing of less than 30 quiet minutes, nor of a day without a common rate', () => {
    expect(dayOf([0])).toBeUndefined();
    expect(closeQuietDay(newQuietBlocks())).toBeUndefined();
  });

  test('begins each day anew', () => {
    const quiet = newQuietBlocks();
    for (let s = 0; s < 7200; s += 10) addQuietReading(quiet, s * 1000, s / 1e6, AIR);
    closeQuietDay(quiet);
    expect(closeQuietDay(quiet)).toBeUndefined();
  });
});
