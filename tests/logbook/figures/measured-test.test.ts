/** The longest run as a test, from what the level sensor saw. */
import { expect, test } from 'vitest';
import type { CycleRow } from '../../../src/core/cycles/cycle-row.ts';
import { longestRun, measuredTest } from '../../../src/logbook/figures/measured-test.ts';

const MINUTE_MS = 60_000;
const START_MS = Date.parse('2026-05-01T06:00:00Z');

function row(ranMin: number, startedMs = START_MS): CycleRow {
  const stoppedMs = startedMs + ranMin * MINUTE_MS;
  const event: CycleRow['event'] = {
    event: 'cycle',
    well: 'a',
    pump: 'p1',
    started: new Date(startedMs).toISOString(),
    stopped: new Date(stoppedMs).toISOString(),
    ranS: ranMin * 60,
    deliveredL: ranMin * 30,
    flags: [],
  };
  return { id: String(startedMs), startedMs, stoppedMs, event } as CycleRow;
}

/** 40 m over the pump at rest; it falls 1 m a minute for 20 min, and comes back as fast. */
const levels = {
  fromMs: START_MS - 5 * MINUTE_MS,
  stepMs: MINUTE_MS,
  mean: Array.from({ length: 60 }, (_, step) => {
    const minute = step - 5;
    const fall = minute < 0 ? 0 : minute <= 30 ? Math.min(20, minute) : Math.max(0, 20 - (minute - 30));
    return minute === 10 ? null : 40 - fall;
  }),
};

test('gives depths at the minutes people read them, and no level where none was measured', () => {
  const found = measuredTest({ run: row(30), levels, setDepthM: 55 });
  expect(found).toMatchObject({ startedMs: START_MS, staticM: 15, flowLPerS: 0.5 });
  expect(found?.points).toEqual([
    { timeS: 60, levelM: 16 },
    { timeS: 120, levelM: 17 },
    { timeS: 180, levelM: 18 },
    { timeS: 300, levelM: 20 },
    { timeS: 900, levelM: 30 },
    { timeS: 1200, levelM: 35 },
  ]);
  expect(found?.recovery.at(-1)).toEqual({ timeS: 1200, levelM: 15 });
});

test('recovery ends where the pump starts again', () => {
  const nextStartMs = START_MS + 34 * MINUTE_MS;
  const found = measuredTest({ run: row(30), levels, setDepthM: 55, nextStartMs });
  expect(found?.recovery.map(({ timeS }) => timeS)).toEqual([60, 120, 180]);
});

test('a short run, or one without a level before it, is no test', () => {
  expect(longestRun([row(5), row(19)])).toBeUndefined();
  expect(longestRun([row(5), row(25), row(21)])?.event.ranS).toBe(1500);
  expect(measuredTest({ run: row(30), levels: { ...levels, mean: [] }, setDepthM: 55 })).toBeUndefined();
});
