import { describe, expect, test } from 'vitest';
import { refusedField } from '../../dashboards/words/refused-field.ts';
import { trendShape, TREND_BOX } from '../../dashboards/charts/trend-shape.ts';
import { RequestError } from '../../dashboards/data/source.ts';
import { datesInWords, dueWords, roundWords, targetWords } from '../../dashboards/words/due.ts';
import { entryMoment } from '../../shared/notes/entry-day.ts';
import { amountText, limitText, resultText, sourceText } from '../../shared/text/en/water-text.ts';
import { kpaFromPsi } from '../../shared/units/pressure.ts';

const NOW = Date.parse('2026-05-10T18:00:00Z');

describe('when a check is due, in words', () => {
  test.each([
    [{ dueDate: '2026-05-10', lateDays: 0, state: 'due' }, 'Due today'],
    [{ dueDate: '2026-05-11', lateDays: -1, state: 'due' }, 'Due 11 May, in 1 day'],
    [{ dueDate: '2026-10-01', lateDays: -144, state: 'later' }, 'Due 1 October, in 5 months'],
    [{ dueDate: '2026-05-03', lateDays: 7, state: 'overdue' }, 'Overdue since 3 May, 7 days'],
    [{ dueDate: '2022-05-10', lateDays: 1461, state: 'overdue' }, 'Overdue since 10 May 2022, 4 years'],
    [{ state: 'off' }, 'Postponed'],
    [{ state: 'not-needed' }, 'Not needed here'],
    [{ state: 'later' }, 'Done'],
  ] as const)('%j', (row, words) => expect(dueWords(row, NOW)).toBe(words));

  test.each([
    [{ is: 'days', days: 365 }, 'Yearly.'],
    [{ is: 'days', days: 14 }, 'Every 14 days.'],
    [{ is: 'yearly', day: '10-01' }, 'Yearly on 1 October.'],
    [undefined, 'Once.'],
  ] as const)('%j', (round, words) => expect(roundWords(round, NOW)).toBe(words));

  test('the target says from which cut-in it comes, in the reader’s units', () => {
    const target = { kpa: kpaFromPsi(38), cutInKpa: kpaFromPsi(40), from: 'measured' } as const;
    expect(targetWords(target, 'us')).toBe('38 psi, 2 psi below the measured cut-in of 40 psi.');
    expect(targetWords(target, 'metric')).toBe('262 kPa, 14 kPa below the measured cut-in of 276 kPa.');
    expect(targetWords({ reason: 'A drive.' }, 'us')).toBe('A drive.');
  });

  test('dates of the server are said as people say them', () => {
    expect(datesInWords('Flood on 2026-05-08. Before 2024-01-02.', NOW)).toBe(
      'Flood on 8 May. Before 2 January 2024.',
    );
  });
});

describe('entryMoment', () => {
  test.each([
    ['today is now', '2026-05-10', 'America/Denver', '2026-05-10T18:00:00.000Z'],
    ['an earlier day is noon at the well', '2026-05-09', 'America/Denver', '2026-05-09T18:00:00.000Z'],
    ['noon far east of Greenwich', '2026-05-09', 'Pacific/Auckland', '2026-05-09T00:00:00.000Z'],
    ['today there is tomorrow here', '2026-05-11', 'Pacific/Auckland', '2026-05-10T18:00:00.000Z'],
  ])('%s', (_, on, timeZone, at) => expect(entryMoment(on, { timeZone, nowMs: NOW })).toEqual({ at }));

  test.each([
    ['2026-02-30', 'day of the calendar'],
    ['', 'day of the calendar'],
    ['12/5/2026', 'day of the calendar'],
    ['2026-05-12', 'ahead'],
    ['1066-10-14', '1850'],
  ])('%j is no day', (on, says) => {
    expect(entryMoment(on, { timeZone: 'UTC', nowMs: NOW })).toEqual({
      reason: expect.stringContaining(says),
    });
  });
});

describe('refusedField', () => {
  test.each([
    ['Cannot read entry: results.2.unit must be mg/L: "NTU"', 'results.2.unit', 'Must be mg/L: "NTU"'],
    ['Cannot read entry: value must be a pressure: "38"', 'value', 'Must be a pressure: "38"'],
  ])('%s', (message, field, reason) =>
    expect(refusedField(new RequestError(message, 409))).toEqual({ field, reason }),
  );

  test.each([new RequestError('The server does not answer. Is it running?'), new Error('x'), undefined])(
    'nothing of %s',
    (error) => expect(refusedField(error)).toBeUndefined(),
  );
});

describe('trendShape', () => {
  const at = (year: number): number => Date.UTC(year, 5, 1);

  test('amounts stand on zero, higher ones higher, later ones further right', () => {
    const shape = trendShape(
      [
        { atMs: at(2020), value: 2 },
        { atMs: at(2024), value: 8, open: true },
      ],
      [],
      true,
    )!;
    expect(shape.low).toBe(0);
    const [first, last] = shape.points as [
      { x: number; y: number; open: boolean },
      { x: number; y: number; open: boolean },
    ];
    expect(last.x).toBeGreaterThan(first.x);
    expect(last.y).toBeLessThan(first.y);
    expect([first.open, last.open]).toEqual([false, true]);
    expect(TREND_BOX.bottom - first.y).toBeCloseTo((TREND_BOX.bottom - last.y) / 4, 0);
    expect(shape.years.map(({ word }) => word)).toEqual(['2021', '2022', '2023', '2024']);
  });

  test('a limit near what was measured is drawn, one far over it is not', () => {
    const points = [
      { atMs: at(2020), value: 2 },
      { atMs: at(2021), value: 3 },
    ];
    const lines = [
      { value: 10, words: 'limit 10' },
      { value: 250, words: 'limit 250' },
    ];
    expect(trendShape(points, lines, true)?.lines.map(({ words }) => words)).toEqual(['limit 10']);
  });

  test('the same value each year is a level line inside the box', () => {
    const shape = trendShape(
      [
        { atMs: at(2020), value: 7 },
        { atMs: at(2021), value: 7 },
      ],
      [],
      false,
    )!;
    const ys = shape.points.map(({ y }) => y);
    expect(new Set(ys).size).toBe(1);
    expect(ys[0]).toBeGreaterThan(TREND_BOX.top);
    expect(ys[0]).toBeLessThan(TREND_BOX.bottom);
  });

  test('words of years never touch, over half a century', () => {
    const { years } = trendShape(
      [
        { atMs: at(1975), value: 1 },
        { atMs: at(2026), value: 2 },
      ],
      [],
      true,
    )!;
    const gaps = years.slice(1).map(({ x }, i) => x - years[i]!.x);
    expect(Math.min(...gaps)).toBeGreaterThan(55);
    expect(years[0]!.x).toBeGreaterThan(24);
    expect(years.at(-1)!.x).toBeLessThan(TREND_BOX.width - 24);
  });

  test('of nothing there is nothing', () => expect(trendShape([], [], true)).toBeUndefined());
});

describe('results and limits in words', () => {
  test.each([
    [10, 'mg/L as N', '10 mg/L as N'],
    [0.01, 'mg/L', '0.01 mg/L'],
    [0.0005, 'mg/L', '0.5 ug/L'],
    [4e-6, 'mg/L', '4 ng/L'],
    [1250, 'mg/L', '1,250 mg/L'],
    [7.2, '', '7.2'],
    [0, 'per 100 mL', '0 per 100 mL'],
    [5.488, 'mg/L as N', '5.49 mg/L as N'],
  ])('%d %s is %s', (value, unit, words) => expect(amountText(value, unit)).toBe(words));

  const result = { analyte: 'x', written: 'x', name: 'x', unit: 'mg/L', comparisons: [], elsewhere: [] };
  test.each([
    [{ is: 'below', value: 0.002 }, 'under 0.002 mg/L'],
    [{ is: 'below' }, 'not detected'],
    [{ is: 'above' }, 'too many to count'],
    [{ is: 'present' }, 'found'],
    [{ is: 'absent' }, 'none found'],
  ] as const)('%j', (more, words) => expect(resultText({ ...result, ...more })).toBe(words));

  test('a limit says where it stands, from when, and what is only from memory', () => {
    const lead = {
      kind: 'action',
      max: 0.01,
      citation: '40 CFR 141.80',
      provenance: 'verified',
      effectiveFrom: { on: '2024-12-30', provenance: 'verified' },
    } as const;
    expect(sourceText(lead)).toBe('40 CFR 141.80. From 2024-12-30.');
    expect(
      sourceText({
        ...lead,
        provenance: 'from-memory',
        effectiveFrom: { on: '2024-12-30', provenance: 'from-memory' },
      }),
    ).toBe('40 CFR 141.80 (from memory). From 2024-12-30 (date from memory).');
    expect(limitText({ ...lead, min: 6.5, max: 8.5 }, '')).toBe('6.5 to 8.5');
  });
});
