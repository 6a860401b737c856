/** Who draws, when and how much. */
import { describe, expect, it } from 'vitest';
import { seeded } from '../../../src/lab/model/random.ts';
import { advanceDemand, newDemand, nextDemandMs } from '../../../src/lab/second-plant/demand.ts';
import {
  heatPump,
  hose,
  household,
  smallDraws,
  softener,
  stock,
  timed,
  type Draw,
  type Habit,
} from '../../../src/lab/second-plant/habits.ts';
import { dayC, localTime, outdoorC, seasonC } from '../../../src/lab/second-plant/weather.ts';
import { house, MIDNIGHT } from './wells.ts';

const DAY_MS = 86_400_000;
const CLIMATE = house().climate;

function draws(habit: Habit, { days = 1, meanC = 10, day = 20_514 } = {}): Draw[] {
  return Array.from({ length: days }, (_, at) =>
    habit({
      startMs: MIDNIGHT + at * DAY_MS,
      day: day + at,
      weekday: (1 + at) % 7,
      meanC,
      climate: CLIMATE,
      random: seeded(at),
    }),
  ).flat();
}

const litres = (list: Draw[]): number =>
  list.reduce((sum, { fromMs, untilMs, lPerS }) => sum + ((untilMs - fromMs) / 1000) * lPerS, 0);

describe('habits', () => {
  it('give a person 100 to 300 L a day indoors (USGS, reference 3.3: 80 to 100 gal with a garden)', () => {
    const aDay = litres(draws(household({ people: 4, rhythm: 'family' }), { days: 60 })) / 60 / 4;
    expect(aDay).toBeGreaterThan(100);
    expect(aDay).toBeLessThan(300);
  });

  it('give a beast 7.5 L for 100 kg in winter, twice that in summer (Kansas State handbook)', () => {
    const winter = litres(draws(stock(30), { days: 30, meanC: -5 })) / 30 / 30;
    const summer = litres(draws(stock(30), { days: 30, meanC: 30 })) / 30 / 30;
    expect(winter / 5).toBeGreaterThan(5);
    expect(winter / 5).toBeLessThan(8);
    expect(summer / winter).toBeCloseTo(2, 1);
  });

  it('let a heat pump run by the weather, and not on a mild day', () => {
    expect(draws(heatPump(0.3), { meanC: 16 })).toEqual([]);
    expect(litres(draws(heatPump(0.3), { meanC: -8 }))).toBeGreaterThan(
      2 * litres(draws(heatPump(0.3), { meanC: 7 })),
    );
  });

  it('run clocks on their days and in their season', () => {
    const garden = timed({ lPerS: 0.3, hour: 4, forMin: 60, everyDays: 2, aboveC: 12 });
    expect(draws(garden, { days: 4 })).toEqual([]);
    const july = draws(garden, { days: 4, day: 20_650 });
    expect(july).toHaveLength(2);
    expect(draws(softener(4), { days: 8 })).toHaveLength(6);
    expect(draws(hose(1, 0), { day: 20_470 })).toEqual([]);
    expect(draws(smallDraws(20), { days: 50 }).length / 50).toBeCloseTo(20, -1);
  });
});

describe('demand', () => {
  it('adds up what is open, and is the same for the same seed', () => {
    const plan = house({ habits: [timed({ lPerS: 0.3, hour: 4, forMin: 60, everyDays: 1 })] });
    const demand = newDemand();
    advanceDemand(demand, plan, MIDNIGHT);
    expect(nextDemandMs(demand)).toBe(MIDNIGHT + 4 * 3_600_000);
    advanceDemand(demand, plan, MIDNIGHT + 4.5 * 3_600_000);
    expect(demand.lPerS).toBe(0.3);
    advanceDemand(demand, plan, MIDNIGHT + 6 * 3_600_000);
    expect(demand.lPerS).toBe(0);
  });
});

describe('weather', () => {
  it('is coldest in January and at five, and a day is the same each time it is asked', () => {
    expect(localTime(MIDNIGHT, -7)).toMatchObject({ hour: 0, weekday: 1 });
    expect(seasonC(CLIMATE, 20_473)).toBeCloseTo(-1, 0);
    expect(seasonC(CLIMATE, 20_655)).toBeCloseTo(21, 0);
    expect(outdoorC(CLIMATE, 10, 5)).toBe(5);
    expect(dayC(CLIMATE, 3, 20_000)).toBe(dayC(CLIMATE, 3, 20_000));
  });
});
