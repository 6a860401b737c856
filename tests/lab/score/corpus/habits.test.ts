/**
 * Habits are told by the clock of the well's own place, and the same seed gives the same household.
 */
import { describe, expect, it } from 'vitest';
import { DAY_MS } from '../../../../shared/units/duration.ts';
import {
  byHand,
  byTimer,
  during,
  people,
  seasonal,
  softener,
  weekdays,
} from '../../../../src/lab/score/corpus/habits.ts';
import { hourOf, hours, midnight, weekdayOf } from '../../../../src/lab/score/corpus/times.ts';

const monday = midnight(3, 2);

describe('times', () => {
  it.each([
    { place: 'seven hours behind', offset: -7 },
    { place: 'at Greenwich', offset: 0 },
    { place: 'ten hours ahead', offset: 10 },
  ])('midnight is the first hour of its weekday $place', ({ offset }) => {
    expect(hourOf(midnight(3, 2, offset), offset)).toBe(0);
    expect(weekdayOf(midnight(3, 2, offset), offset)).toBe(1);
    expect(weekdayOf(midnight(3, 2, offset) - 1, offset)).toBe(0);
  });
});

describe('share', () => {
  it('weekdays has a mean of one over the week, and no less on Sunday than on Monday', () => {
    const share = weekdays(7, -7);
    const days = [0, 1, 2, 3, 4, 5, 6].map((day) => share(monday + day * DAY_MS));
    expect(days.reduce((a, b) => a + b, 0) / 7).toBeCloseTo(1, 6);
    expect(days[6]).toBeGreaterThanOrEqual(days[0]!);
  });

  it('during holds another share between two moments alone', () => {
    const share = during(() => 1, [{ fromMs: monday, untilMs: monday + DAY_MS, by: 0 }]);
    expect([-1, 0, DAY_MS - 1, DAY_MS].map((ms) => share(monday + ms))).toEqual([1, 0, 0, 1]);
  });

  it('seasonal is highest in July', () => {
    const share = seasonal(() => 1, 0.2);
    expect(share(midnight(7, 15, 0))).toBeCloseTo(1.2, 3);
    expect(share(midnight(1, 14, 0))).toBeCloseTo(0.8, 2);
  });
});

describe('draws', () => {
  const daily = { fromMs: monday, days: 7, everyDays: 3, hour: 5, forMin: 20, lPerS: 0.3 };

  it('byTimer draws at its hour on its days', () => {
    expect(byTimer(daily).map(({ fromMs }) => (fromMs - monday) / DAY_MS - 5 / 24)).toEqual([0, 3, 6]);
    expect(byTimer(daily).map(({ fromMs, untilMs }) => (untilMs - fromMs) / 60_000)).toEqual([20, 20, 20]);
  });

  it('byHand draws on some of the days, the same for the same seed', () => {
    const wish = { ...daily, days: 100, everyDays: 1, seed: 5, chance: 0.5 };
    const draws = byHand(wish);
    expect(draws.length).toBeGreaterThan(30);
    expect(draws.length).toBeLessThan(70);
    expect(byHand(wish)).toEqual(draws);
  });

  it('softener takes some 220 L in the small hours', () => {
    const draws = softener({ fromMs: monday, days: 1, everyDays: 3 });
    const litres = draws.reduce((sum, d) => sum + (d.lPerS * (d.untilMs - d.fromMs)) / 1000, 0);
    expect(litres).toBeCloseTo(223, 0);
    expect(draws.every(({ fromMs }) => fromMs >= monday + hours(2) && fromMs < monday + hours(4))).toBe(true);
  });
});

describe('people', () => {
  it('use about 190 L each a day', () => {
    const aDay = people(4).reduce((sum, { perDay: times, litres }) => sum + times * litres, 0);
    expect(aDay / 4).toBeGreaterThan(150);
    expect(aDay / 4).toBeLessThan(230);
  });
});
