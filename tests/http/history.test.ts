import { describe, expect, test } from 'vitest';
import type { Card } from '../../src/core/domain/card.ts';
import type { StoredChart, WebStore } from '../../src/http/deps.ts';
import { recentDays } from '../../src/http/answers/well-answers.ts';
import { wellChart } from '../../src/http/well-chart.ts';
import { cardOf, FARM_NOW_MS, storyOf } from '../browser/support/farm.ts';
import { openTestApp } from './support.ts';

const DAY = 86_400_000;

describe('wellChart', () => {
  const store: Pick<WebStore, 'chart'> = {
    chart: async (node, channel, fromMs, toMs, points): Promise<StoredChart> => {
      const mean = Array.from({ length: points }, () =>
        node === 'old' ? 1 : channel === 'p2/current' ? 2 : 3,
      );
      return { fromMs, stepMs: (toMs - fromMs) / points, low: mean, high: mean, mean };
    },
  };
  const card: Card = {
    ...cardOf(storyOf('orchard')),
    reads: [
      { channel: 'current', node: 'old', nodeChannel: 'current', sinceMs: 0 },
      { channel: 'current', node: 'panel', nodeChannel: 'p2/current', sinceMs: 3_000 },
    ],
  };

  test.each([
    ['across the change of a node both are read', 'current', [1, 1, 1, 2, 2, 2]],
    ['a channel that the card does not name is the well’s own node’s', 'pressure', [3, 3, 3, 3, 3, 3]],
    ['a pump too many has no chart', 'p2/current', []],
  ])('%s', async (_why, channel, mean) => {
    const chart = await wellChart(store as WebStore, card, { channel, fromMs: 0, toMs: 6_000, points: 6 });
    expect(chart.mean).toEqual(mean);
  });
});

describe('days', () => {
  test('with levels carry the medians of their cycles; without, they are as kept', async () => {
    const { get } = openTestApp();
    const window = `from=${FARM_NOW_MS - 5 * DAY}&to=${FARM_NOW_MS}`;
    const [bare, full] = (await Promise.all(
      ['false', 'true'].map(
        async (levels) => await (await get(`/api/wells/orchard/days?levels=${levels}&${window}`)).json(),
      ),
    )) as [{ days: object[] }, { days: { cutInKpaMedian?: number; cutOutKpaMedian?: number }[] }];
    expect(bare.days.every((day) => !('cutInKpaMedian' in day))).toBe(true);
    expect(full.days.length).toBeGreaterThan(2);
    for (const day of full.days.slice(1)) {
      expect(day.cutInKpaMedian).toBeCloseTo(276, -1);
      expect(day.cutOutKpaMedian).toBeCloseTo(414, -1);
    }
  });
});

describe('recentDays', () => {
  test('14 dates up to yesterday there; pumps are summed, the unknown stays unknown', async () => {
    const now = (await openTestApp().farm.deps.live.wells())[0]!;
    const day = (pump: string, ranS: number, heardS: number) => ({
      event: 'day' as const,
      well: now.well,
      pump,
      date: '2026-07-13',
      ranS,
      cycles: 2,
      heardS,
    });
    const recent = recentDays([day('p1', 100, 86_400), day('p2', 50, 80_000)], now, FARM_NOW_MS);
    expect(recent).toHaveLength(14);
    expect(recent[0]).toEqual({ date: '2026-06-30' });
    expect(recent.at(-1)).toEqual({ date: '2026-07-13', ranS: 150, cycles: 4, heardS: 80_000 });
  });
});

test('cycles: the newest are kept where there are more than asked for, and it is said so', async () => {
  const { get } = openTestApp();
  const answer = (await (await get(`/api/wells/house-hill/cycles?from=0&to=${30 * DAY}`)).json()) as {
    cycles: unknown[];
    more: boolean;
  };
  expect(answer).toEqual({ cycles: [], more: false });
  const few = (await (
    await get(`/api/wells/house-hill/cycles?limit=3&from=${FARM_NOW_MS - DAY}&to=${FARM_NOW_MS}`)
  ).json()) as { cycles: { stopped: string }[]; more: boolean };
  expect(few.more).toBe(true);
  expect(few.cycles).toHaveLength(3);
  expect(Date.parse(few.cycles[2]!.stopped)).toBeGreaterThan(FARM_NOW_MS - DAY / 8);
});
