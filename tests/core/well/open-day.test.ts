import { describe, expect, it } from 'vitest';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';
import { addCycleToDay, dayEvents, newOpenDay } from '../../../src/core/well/open-day.ts';
import { localDayAt } from '../../../src/core/well/local-day.ts';

const DAY = localDayAt(Date.UTC(2026, 2, 2, 12), 'UTC');
const cycle = (pump: number, ranS: number, amps?: number): Cycle => ({
  pump,
  startedMs: DAY.startMs,
  stoppedMs: DAY.startMs + ranS * 1000,
  ranS,
  readings: ranS,
  flags: [],
  ...(amps !== undefined && { amps }),
});

describe('dayEvents', () => {
  it('says one line for one pump, with the water', () => {
    const day = newOpenDay(DAY, 1, []);
    for (const [ranS, amps] of [
      [60, 8],
      [100, 8.2],
      [80, 9],
    ] as const)
      addCycleToDay(day, cycle(0, ranS, amps));
    day.pumps[0]!.heardMs = 86_400_000;
    day.water = { usedL: 812.5 };
    expect(dayEvents('north', day, ['p1'])).toEqual([
      {
        event: 'day',
        well: 'north',
        date: '2026-03-02',
        cycles: 3,
        ranS: 240,
        heardS: 86_400,
        ampsMedian: 8.2,
        usedL: 812.5,
      },
    ]);
  });

  it('says one line a pump and one for the water where there are several', () => {
    const day = newOpenDay(DAY, 2, []);
    addCycleToDay(day, cycle(1, 60, 5));
    day.pumps[0]!.heardMs = 1000;
    day.pumps[1]!.heardMs = 2000;
    day.water = { usedL: 40 };
    expect(dayEvents('twin', day, ['p1', 'p2'])).toEqual([
      { event: 'day', well: 'twin', date: '2026-03-02', usedL: 40 },
      { event: 'day', well: 'twin', pump: 'p1', date: '2026-03-02', cycles: 0, ranS: 0, heardS: 1 },
      {
        event: 'day',
        well: 'twin',
        pump: 'p2',
        date: '2026-03-02',
        cycles: 1,
        ranS: 60,
        heardS: 2,
        ampsMedian: 5,
      },
    ]);
  });

  it('counts no cycles of a day that was not heard', () => {
    expect(dayEvents('dark', newOpenDay(DAY, 1, []), ['p1'])).toEqual([
      { event: 'day', well: 'dark', date: '2026-03-02', heardS: 0 },
    ]);
  });
});
