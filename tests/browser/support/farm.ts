/**
 * An invented farm for looking at pages and testing the API: four wells, up to 60 days (one of them
 * 400), each with a story. Nothing is random: the wobble is a fixed hash of its place, so that two
 * runs give the same farm.
 */
import type { CycleRow } from '../../../src/core/cycles/cycle-row.ts';
import type { CycleEvent, DayEvent } from '../../../shared/api/events.ts';
import { localDate } from '../../../shared/text/en/time-words.ts';
import type { Card } from '../../../src/core/domain/card.ts';

export const DAY_MS = 86_400_000;
export const ZONE = 'America/Denver';
/** A Tuesday in July, a quarter past noon on the farm. */
export const FARM_NOW_MS = Date.parse('2026-07-14T18:15:00Z');

export interface Day {
  starts: number;
  ranS: number;
  amps: number;
  cutInKpa: number;
  cutOutKpa: number;
}

export interface Story {
  well: string;
  uses: Card['uses'];
  days: number;
  maxAmps: number;
  /** What the well does `ago` days ago (0 today). */
  day(ago: number): Day;
}

/** 0 to 1, the same for the same place. */
export function wobble(...place: number[]): number {
  let hash = 2_166_136_261;
  for (const part of place) hash = Math.imul(hash ^ (part | 0), 16_777_619) ^ (hash >>> 13);
  return ((hash >>> 0) % 10_007) / 10_007;
}

const steady = { amps: 7.9, cutInKpa: 276, cutOutKpa: 414 };

export const STORIES: readonly Story[] = [
  {
    well: 'house-hill',
    uses: ['house'],
    days: 400,
    maxAmps: 9.8,
    day: (ago) => ({
      ...steady,
      starts: 16 + Math.round(6 * wobble(1, ago)) + summer(ago),
      ranS: 95 + 20 * wobble(2, ago),
    }),
  },
  {
    well: 'north-paddock',
    uses: ['stock'],
    days: 60,
    maxAmps: 8,
    day: (ago) => {
      const lost = Math.max(0, 1 - ago / 22);
      return {
        amps: 6.4,
        cutInKpa: 207,
        cutOutKpa: 345,
        starts: Math.round(14 + 150 * lost ** 2),
        ranS: 110 - 80 * lost,
      };
    },
  },
  {
    well: 'orchard',
    uses: ['irrigation'],
    days: 60,
    maxAmps: 13.2,
    day: (ago) => ({
      amps: 11.2,
      cutInKpa: 276,
      cutOutKpa: 414,
      starts: 6 + Math.round(3 * wobble(3, ago)),
      ranS: 1_500 + 900 * wobble(4, ago),
    }),
  },
  {
    well: 'mill-yard',
    uses: ['house', 'stock'],
    days: 60,
    maxAmps: 9.8,
    day: (ago) => {
      const worn = Math.max(0, 1 - ago / 45);
      return { ...steady, amps: 8.1 - 0.7 * worn, starts: 22, ranS: 100 + 90 * worn };
    },
  },
];

/** More in the warm months, as gardens are watered. */
function summer(ago: number): number {
  return Math.round(5 * (1 + Math.cos((2 * Math.PI * ago) / 365)));
}

export function storyOf(well: string): Story {
  const story = STORIES.find((one) => one.well === well);
  if (!story) throw new Error(`Cannot tell of ${well}: the farm has no such well`);
  return story;
}

/** Cycles of one well, oldest first. The orchard's last run goes on: its contacts stick. */
export function cyclesOf(story: Story): CycleRow[] {
  const rows: CycleRow[] = [];
  for (let ago = story.days; ago >= 0; ago -= 1) {
    const day = story.day(ago);
    for (let i = 0; i < day.starts; i += 1) rows.push(...cycleOf(story, day, ago, i));
  }
  return rows;
}

function cycleOf(story: Story, day: Day, ago: number, i: number): CycleRow[] {
  const dayMs = FARM_NOW_MS - 12.25 * 3_600_000 - ago * DAY_MS;
  const slotMs = DAY_MS / day.starts;
  const startedMs = Math.round((dayMs + slotMs * (i + 0.4 * wobble(5, ago, i))) / 1000) * 1000;
  const ranS = Math.round(day.ranS * (0.9 + 0.2 * wobble(6, ago, i)));
  const stoppedMs = startedMs + ranS * 1000;
  if (stoppedMs > FARM_NOW_MS - 60_000) return [];
  const wob = (place: number, size: number) => size * (wobble(place, ago, i) - 0.5);
  const event: CycleEvent = {
    event: 'cycle',
    well: story.well,
    pump: 'p1',
    started: new Date(startedMs).toISOString(),
    stopped: new Date(stoppedMs).toISOString(),
    ranS,
    restedS: Math.round(slotMs / 1000 - ranS),
    amps: round(day.amps + wob(7, 0.12), 2),
    cutInKpa: round(day.cutInKpa + wob(8, 4), 1),
    cutOutKpa: round(day.cutOutKpa + wob(9, 4), 1),
    riseDelayS: 2,
    flags: [],
  };
  return [{ event, startedMs, stoppedMs, shape: shapeOf(day, ranS, ago, i) }];
}

/** 40 points of a run: the motor's inrush settles, pressure climbs ever slower. */
export function shapeOf(day: Day, ranS: number, ago: number, i: number): NonNullable<CycleRow['shape']> {
  const everyS = ranS / 39;
  const at = (k: number): number => k / 39;
  const steps = Array.from({ length: 40 }, (_, k) => k);
  return {
    everyS,
    amps: steps.map((k) =>
      round(day.amps * (1 + 0.05 * Math.exp(-k / 3)) - 0.2 * at(k) + 0.06 * wobble(10, ago, i, k), 2),
    ),
    kpa: steps.map((k) =>
      round(
        day.cutInKpa + (day.cutOutKpa - day.cutInKpa) * (1 - (1 - at(k)) ** 1.3) + wobble(11, ago, i, k),
        1,
      ),
    ),
  };
}

/**
 * Printed days, oldest first; a day without power is missing in the house's past, and one was heard
 * in part.
 */
export function daysOf(story: Story, rows: readonly CycleRow[]): DayEvent[] {
  const byDate = new Map<string, CycleRow[]>();
  for (const row of rows) {
    const date = localDate(row.startedMs, ZONE);
    byDate.set(date, [...(byDate.get(date) ?? []), row]);
  }
  const today = localDate(FARM_NOW_MS, ZONE);
  return [...byDate]
    .filter(([date]) => date < today && !(story.well === 'house-hill' && date.endsWith('-05-19')))
    .map(([date, all]) => ({
      event: 'day' as const,
      well: story.well,
      pump: 'p1',
      date,
      cycles: all.length,
      ranS: all.reduce((sum, row) => sum + row.event.ranS, 0),
      heardS: date.endsWith('-06-30') ? 61_000 : 86_400,
      ampsMedian: all[all.length >> 1]?.event.amps ?? 0,
    }));
}

export function cardOf(story: Story): Card {
  const { cutInKpa, cutOutKpa } = story.day(story.days);
  return {
    well: story.well,
    site: 'harrow-bend',
    timeZone: ZONE,
    altitudeM: 1585,
    altitudeKnown: true,
    uses: story.uses,
    pumps: [
      { id: 'p1', control: 'pressure-switch', kind: 'submersible', maxAmps: story.maxAmps, setDepthM: 54.9 },
    ],
    switch: { cutInKpa, cutOutKpa, lowCutOffKpa: 138 },
    tank: { kind: 'captive-air', volumeL: 166.6, prechargeKpa: cutInKpa - 14 },
    reliefKpa: 517,
    reads: [],
  };
}

function round(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}
