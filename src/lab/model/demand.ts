/**
 * Who draws water and when: a household by its fixtures, cattle by their trough, a garden by its
 * timer. Events are drawn minute by minute from a daily profile; amounts are usual ones (common
 * practice, no source).
 */
import type { Random } from './random.ts';

export interface Fixture {
  name: string;
  /** Draws a day, on average. */
  perDay: number;
  litres: number;
  lPerS: number;
  /** Relative likelihood of each local hour. */
  hours: readonly number[];
}

/** Morning and evening people; nights are quiet. */
const WAKING = [
  0, 0, 0, 0, 0.1, 0.5, 2, 3, 2, 1, 0.8, 0.8, 1, 0.9, 0.7, 0.7, 0.9, 1.5, 2, 2, 1.6, 1.2, 0.6, 0.1,
];
const EVENING = [
  0, 0, 0, 0, 0, 0, 0.2, 0.5, 1, 1, 1, 0.8, 0.6, 0.5, 0.5, 0.6, 0.8, 1, 1.5, 2, 1.6, 0.6, 0.1, 0,
];
/** Stock drinks by daylight, most in the late afternoon. */
const DAYLIGHT = [
  0, 0, 0, 0, 0, 0.3, 0.8, 1, 1, 0.8, 0.7, 0.8, 1, 1, 1.2, 1.5, 1.6, 1.4, 1, 0.5, 0.2, 0, 0, 0,
];

export const HOUSEHOLD: readonly Fixture[] = [
  { name: 'toilet', perDay: 14, litres: 6, lPerS: 0.1, hours: WAKING },
  { name: 'tap', perDay: 30, litres: 3, lPerS: 0.08, hours: WAKING },
  { name: 'shower', perDay: 2.5, litres: 65, lPerS: 0.14, hours: WAKING },
  { name: 'washing machine', perDay: 2, litres: 18, lPerS: 0.2, hours: EVENING },
  { name: 'dishwasher', perDay: 1, litres: 12, lPerS: 0.1, hours: EVENING },
];

export const STOCK: readonly Fixture[] = [
  { name: 'trough', perDay: 9, litres: 190, lPerS: 0.28, hours: DAYLIGHT },
  { name: 'yard tap', perDay: 3, litres: 20, lPerS: 0.2, hours: DAYLIGHT },
];

interface OpenFixture {
  lPerS: number;
  leftL: number;
}

export interface Demand {
  fixtures: readonly Fixture[];
  totals: number[];
  open: OpenFixture[];
}

export function newDemand(fixtures: readonly Fixture[]): Demand {
  return { fixtures, totals: fixtures.map((f) => f.hours.reduce((a, b) => a + b, 0)), open: [] };
}

/**
 * Once a minute: fixtures may open. `hour` is the local hour, `useRatio` scales how much is used
 * today.
 */
export function demandMinute(demand: Demand, hour: number, useRatio: number, random: Random): void {
  for (const [at, fixture] of demand.fixtures.entries()) {
    const probability = (fixture.perDay * useRatio * fixture.hours[hour]!) / demand.totals[at]! / 60;
    if (random.next() >= probability) continue;
    demand.open.push({
      lPerS: fixture.lPerS * (0.8 + 0.4 * random.next()),
      leftL: fixture.litres * (0.5 + random.next()),
    });
  }
}

/**
 * Water wanted in the next `dtS`, L. `flowRatio` scales the flow: a cistern fills more slowly at
 * low pressure, and takes its litres all the same.
 */
export function demandStep(demand: Demand, dtS: number, flowRatio = 1): number {
  if (demand.open.length === 0) return 0;
  let litres = 0;
  let done = false;
  for (const open of demand.open) {
    const drawn = Math.min(open.leftL, open.lPerS * flowRatio * dtS);
    open.leftL -= drawn;
    litres += drawn;
    if (open.leftL <= 0) done = true;
  }
  if (done) demand.open = demand.open.filter((open) => open.leftL > 0);
  return litres;
}
