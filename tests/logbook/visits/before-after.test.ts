import type { ReportMeasure } from '../../../shared/api/visits.ts';
import { describe, expect, test } from 'vitest';
import type { CycleEvent, CycleFlag, DayEvent } from '../../../shared/api/events.ts';
import { REPORT_DAYS, beforeAfterReport, reportWindows } from '../../../src/logbook/visits/before-after.ts';
import type { Visit } from '../../../src/logbook/visits/visits.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const OPENED = Date.parse('2026-05-10T15:00:00Z');
const visit: Visit = { id: 'a', openedMs: OPENED, closedMs: OPENED + 2 * HOUR, newBaseline: false };

interface Runs {
  n: number;
  amps?: number;
  /** Every second run is higher, every other lower, by this much. */
  scatter?: number;
  ranS?: number;
  more?: Partial<CycleEvent>;
}

/** Runs an hour apart, the last an hour before the visit or the first an hour after its close. */
function runs(
  side: 'before' | 'after',
  { n, amps = 7.9, scatter = 0, ranS = 100, more = {} }: Runs,
): CycleEvent[] {
  return Array.from({ length: n }, (_, i) => {
    const startedMs = side === 'before' ? OPENED - (n - i) * HOUR : visit.closedMs! + (i + 1) * HOUR;
    return {
      event: 'cycle',
      well: 'orchard',
      pump: 'p1',
      started: new Date(startedMs).toISOString(),
      stopped: new Date(startedMs + ranS * 1000).toISOString(),
      ranS,
      amps: amps + (i % 2 === 0 ? scatter : -scatter),
      flags: [],
      ...more,
    };
  });
}

const proof = (cycles: CycleEvent[], more: { visit?: Visit; days?: DayEvent[] } = {}) =>
  beforeAfterReport({
    visit,
    pump: 'p1',
    timeZone: 'America/Denver',
    cycles,
    days: [],
    baselines: [],
    ...more,
  });
const line = (measure: ReportMeasure, ...asked: Parameters<typeof proof>) =>
  proof(...asked).find((one) => one.measure === measure)!;

describe('what proofOf says of running amps', () => {
  test.each<[string, Runs, Runs, string, number | undefined]>([
    ['nothing after yet', { n: 20 }, { n: 0 }, 'pending', undefined],
    ['nine runs are not enough', { n: 20 }, { n: 9 }, 'pending', undefined],
    ['ten are', { n: 20 }, { n: 10, amps: 8.9 }, 'changed', 1],
    ['nothing known before', { n: 3 }, { n: 20 }, 'no-baseline', undefined],
    [
      'a change under the scatter before',
      { n: 20, scatter: 0.4 },
      { n: 20, amps: 8.3 },
      'within-spread',
      0.4,
    ],
    ['a change under the scatter after', { n: 20 }, { n: 20, amps: 8.3, scatter: 0.4 }, 'within-spread', 0.4],
    ['a change over both', { n: 20, scatter: 0.1 }, { n: 20, amps: 8.5, scatter: 0.1 }, 'changed', 0.6],
    ['a change that no clamp can tell', { n: 20 }, { n: 20, amps: 7.95 }, 'within-spread', 0.05],
    ['less than before', { n: 20, amps: 9 }, { n: 20, amps: 7.9 }, 'changed', -1.1],
  ])('%s', (_, before, after, verdict, by) => {
    const found = line('amps', [...runs('before', before), ...runs('after', after)]);
    expect(found.verdict).toBe(verdict);
    if (by === undefined) expect(found.difference).toBeUndefined();
    else expect(found.difference).toBeCloseTo(by, 6);
    expect([found.before.count, found.after.count]).toEqual([before.n, after.n]);
  });
});

describe('what counts', () => {
  test.each<[string, CycleFlag, number]>([
    ['a hole', 'gap', 0],
    ['a clock that stepped', 'clock-step', 0],
    ['a start that failed', 'failed-start', 0],
    ['two runs in one', 'merged', 0],
    ['readings far apart do', 'coarse', 12],
  ])('runs with %s', (_, flag, n) => {
    expect(line('amps', runs('after', { n: 12, more: { flags: [flag] } })).after.count).toBe(n);
  });

  test('of the visit itself and of another pump nothing', () => {
    const during = runs('before', { n: 12 }).map((run, i) => ({
      ...run,
      started: new Date(OPENED + i * 60_000).toISOString(),
      stopped: new Date(OPENED + i * 60_000 + 1).toISOString(),
    }));
    expect(line('amps', during)).toMatchObject({ before: { count: 0 }, after: { count: 0 } });
    expect(line('amps', runs('after', { n: 12, more: { pump: 'p2' } })).after.count).toBe(0);
  });

  test('a fill is the quicker half of the runs, and a run that did not fill is none', () => {
    const cycles = [
      ...runs('after', { n: 20, ranS: 100 }),
      ...runs('after', { n: 19, ranS: 900 }),
      ...runs('after', { n: 5, ranS: 20, more: { flags: ['no-cut-out'] } }),
    ];
    expect(line('fill-time', cycles).after).toMatchObject({ count: 20, median: 100 });
  });

  test('days that lie whole on one side and were heard', () => {
    const day = (date: string, more: Partial<DayEvent>): DayEvent => ({
      event: 'day',
      well: 'orchard',
      pump: 'p1',
      date,
      heardS: 86_400,
      ...more,
    });
    const days = [
      ...['2026-05-06', '2026-05-07', '2026-05-08', '2026-05-09'].map((date) =>
        day(date, { cycles: 60, leakLPerDay: 300 }),
      ),
      day('2026-05-10', { cycles: 500 }),
      ...['2026-05-11', '2026-05-12', '2026-05-13'].map((date) => day(date, { cycles: 21, leakLPerDay: 0 })),
      day('2026-05-14', { cycles: 900, heardS: 60_000 }),
    ];
    expect(line('cycles-a-day', [], { days })).toMatchObject({
      verdict: 'changed',
      before: { count: 4, median: 60 },
      after: { count: 3, median: 21 },
      difference: -39,
    });
    expect(line('leak', [], { days })).toMatchObject({ verdict: 'changed', difference: -300 });
    // Of a well whose leak was never judged nothing is said.
    expect(line('leak', [], { days: days.map(({ leakLPerDay: _leak, ...rest }) => rest) }).verdict).toBe(
      'pending',
    );
  });

  test('delivery is litres over seconds of a run', () => {
    const cycles = [
      ...runs('before', { n: 12, more: { deliveredL: 40 } }),
      ...runs('after', { n: 12, more: { deliveredL: 60 } }),
    ];
    expect(line('delivery', cycles)).toMatchObject({
      before: { median: 0.4 },
      after: { median: 0.6 },
      verdict: 'changed',
    });
  });
});

test('what was usual stands beside it, as it was told last before the visit', () => {
  const baseline = (at: string, amps: number) => ({
    event: 'baseline' as const,
    well: 'orchard',
    pump: 'p1',
    at,
    amps,
  });
  const found = beforeAfterReport({
    visit,
    pump: 'p1',
    timeZone: 'UTC',
    cycles: [],
    days: [],
    baselines: [
      baseline('2026-01-01T00:00:00Z', 8),
      baseline('2026-05-01T00:00:00Z', 7.9),
      baseline('2026-05-20T00:00:00Z', 9),
    ],
  });
  expect(found.find(({ measure }) => measure === 'amps')?.normal).toBe(7.9);
});

describe('proofWindows', () => {
  test.each<[string, Visit, number, number | undefined]>([
    ['two weeks on either side', visit, OPENED - REPORT_DAYS * DAY, visit.closedMs! + REPORT_DAYS * DAY],
    [
      'an open visit has no after',
      { id: 'a', openedMs: OPENED, newBaseline: false },
      OPENED - REPORT_DAYS * DAY,
      undefined,
    ],
    [
      'neighbours are nearer',
      { ...visit, windowStartMs: OPENED - DAY, windowEndMs: OPENED + DAY },
      OPENED - DAY,
      OPENED + DAY,
    ],
  ])('%s', (_, of, from, to) => {
    const { before, after } = reportWindows(of);
    expect([before[0], after?.[1]]).toEqual([from, to]);
  });
});
