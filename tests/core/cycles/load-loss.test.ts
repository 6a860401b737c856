import { describe, expect, it } from 'vitest';
import { findLoadLoss, findLoadLossAtEnd } from '../../../src/core/cycles/load-loss.ts';

const rows: [name: string, everyS: number, amps: number[], kpa: (number | null)[], at: number | undefined][] =
  [
    ['a fill', 8, [30, 8.2, 8.1, 8, 7.9, 7.8, 7.7], [270, 290, 310, 330, 350, 380, 410], undefined],
    [
      'suction breaks and pressure falls',
      8,
      [30, 8.2, 8.1, 8, 4.5, 4.4, 4.5],
      [270, 290, 310, 330, 325, 320, 315],
      32,
    ],
    [
      'the same with nothing to see of pressure',
      8,
      [30, 8.2, 8.1, 8, 4.5, 4.4, 4.5],
      [null, null, null, null, null, null, null],
      32,
    ],
    [
      'less current and pressure that climbs on is a throttled fill',
      8,
      [30, 8.2, 8.1, 8, 6, 6, 6],
      [270, 290, 310, 330, 350, 370, 390],
      undefined,
    ],
    [
      'a last step that holds the stop',
      8,
      [30, 8.2, 8.1, 8, 7.9, 4],
      [270, 290, 310, 330, 350, 355],
      undefined,
    ],
    [
      'a dip that comes back',
      8,
      [30, 8.2, 8.1, 4, 8, 8, 8, 8],
      [270, 290, 310, 312, 330, 350, 370, 380],
      undefined,
    ],
    [
      'dry from its first second did not break',
      8,
      [10, 4.5, 4.4, 4.5, 4.4, 4.5],
      [270, 268, 266, 264, 262, 260],
      undefined,
    ],
    [
      'too soon after the start to know what it drew',
      1,
      [30, 8, 8, 8, 4, 4, 4],
      [270, 271, 272, 273, 272, 271, 270],
      undefined,
    ],
  ];

describe('brokeAt', () => {
  it.each(rows)('%s', (_name, everyS, amps, kpa, at) => {
    expect(findLoadLoss({ everyS, amps, kpa })?.atS).toBe(at);
  });
});

describe('brokeAtEnd', () => {
  it.each<[string, [number, number, number], number, number | undefined]>([
    ['a protector opens after ten seconds without water', [8, 4.4, 4.4], 43, 200],
    ['the last reading alone is the stop', [8, 8, 4], 43, undefined],
    ['a run of five readings is too short to tell', [8, 4.4, 4.4], 5, undefined],
  ])('%s', (_name, ends, readings, atS) => {
    expect(findLoadLossAtEnd(ends, { amps: 8, ranS: 5 * readings, periodS: 5, readings })?.atS).toBe(atS);
  });
});
