import { describe, expect, it } from 'vitest';
import { drive } from './series.ts';

/** Five sound runs teach what the pump draws; the sixth is asked. */
const KNOWN = '0x30 14 8x60 0x30 9 8x60 0x30 8x60 0x30 12 8x60 0x30 14 8x60 0x30';

describe('a start that lasts', () => {
  it.each([
    [
      'contacts that bounce for nine seconds',
      `${KNOWN} 22 16 17 22 11 22 20 13 22 17 8x60 0x30`,
      { durationS: 9, ratio: 2.25 },
    ],
    ['contacts that bounce for three', `${KNOWN} 9 14 13 18 8x60 0x30`, { durationS: 3, ratio: 1.94 }],
    ['a motor that comes up slowly', `${KNOWN} 44x5 30 8x60 0x30`, { durationS: 5, ratio: 5.06 }],
    ['a sound start, caught late in its second', `${KNOWN} 9 8x60 0x30`, undefined],
    ['a run-out at the most flow that a pump gives', `${KNOWN} 14 9.6x20 8x60 0x30`, undefined],
    ['current that stays up is drag and no start', `${KNOWN} 14 11.5x80 0x30`, undefined],
    ['a run of seconds says nothing', `${KNOWN} 14 14x8 0x30`, undefined],
  ])('%s', (_name, amps, longStart) => {
    const { cycles } = drive({ amps });
    expect(cycles.slice(0, 5).map((cycle) => cycle.longStart)).toEqual(Array(5).fill(undefined));
    expect(cycles[5]!.longStart).toEqual(longStart);
  });
});
