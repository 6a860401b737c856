/**
 * Sound houses in all that people do: sizes, guests, empty weeks, gardens, softeners, pools, frost.
 * Nothing is to be raised; where something unusual was written down beforehand (`expected`) it is
 * explained, and what is strange and unexplained for hours may be told (`allowed`).
 */
import { DAY_MS } from '../../../../shared/units/duration.ts';
import type { CorpusCase } from '../case.ts';
import { byHand, byTimer, during, once, people, seasonal, softener, weekdays, type Draw } from './habits.ts';
import { healthyCase, type Acts } from './case-builders.ts';
import type { PumpSize } from './pumps.ts';
import { EVERY_10_S, EVERY_1_S, EVERY_5_S, setup, type WellOptions } from './setup.ts';
import { hours, midnight } from './times.ts';

/** Over half a year each. */
const DAYS = 205;

/** `variant` makes another household of the same kind: other seed, other heads. */
export function healthyHouses(variant: number): CorpusCase[] {
  return [
    ...plainHouses(variant),
    guestsAndEmptyWeeks(variant),
    gardenByTimer(variant),
    gardenByHand(variant),
    softenerAtTwo(variant),
    poolFilled(variant),
    frostTrickle(variant),
    highUp(variant),
    tinyTank(variant),
    plainTank(variant),
  ];
}

function plainHouses(variant: number): CorpusCase[] {
  const houses: {
    size: PumpSize;
    heads: number;
    tankGal: number;
    points: [number, number];
    knows: WellOptions['cardKnowledge'];
  }[] = [
    { size: 'halfHp', heads: 1, tankGal: 32, points: [30, 50], knows: 'all' },
    { size: 'threeQuarterHp', heads: 3, tankGal: 44, points: [30, 50], knows: 'no-tank' },
    { size: 'oneHp', heads: 4, tankGal: 86, points: [40, 60], knows: 'no-switch' },
    { size: 'oneAndHalfHp', heads: 7, tankGal: 119, points: [50, 70], knows: 'name' },
    { size: 'oneHp', heads: 2, tankGal: 20, points: [40, 60], knows: 'all' },
  ];
  return houses.map(({ size, heads, tankGal, points: [cutInPsi, cutOutPsi], knows }, nth) => {
    const seed = 2000 + 100 * variant + nth;
    return healthyCase(`healthy-house-${nth + 1}-${variant}`, {
      about: `a house of ${heads}, its card: ${knows}`,
      setup: setup({
        name: `ashby-${nth}-${variant}`,
        seed,
        size,
        cutInPsi,
        cutOutPsi,
        tankGal,
        cardKnowledge: knows ?? 'all',
        fixtures: people(heads + 0.3 * (variant % 3)),
        useRatio: seasonal(weekdays(seed, -7), 0.12),
        node: nth % 2 === 0 ? EVERY_5_S : EVERY_10_S,
      }),
      fromMs: midnight(1 + 2 * nth, 5),
      days: DAYS,
    });
  });
}

/**
 * Guests for long weekends and a fortnight at Christmas; the house stands empty for one, two and
 * three weeks.
 */
function guestsAndEmptyWeeks(variant: number): CorpusCase {
  const seed = 2010 + 100 * variant;
  const span = (month: number, day: number, days: number, by: number) => ({
    fromMs: midnight(month, day),
    untilMs: midnight(month, day) + days * DAY_MS,
    by,
  });
  return healthyCase(`healthy-guests-${variant}`, {
    about: 'guests for some days, an empty house for some weeks',
    setup: setup({
      name: `barrow-${variant}`,
      seed,
      fixtures: people(3),
      tankGal: 44,
      useRatio: during(weekdays(seed, -7), [
        span(2, 13, 4, 2.3),
        span(3, 6, 7, 0),
        span(4, 3, 5, 2.6),
        span(5, 8, 14, 0),
        span(6, 12, 3, 3),
        span(6, 25, 21, 0),
      ]),
    }),
    fromMs: midnight(1, 10),
    days: 195,
  });
}

/**
 * A garden's timer at five each second morning, from the first of May; the owner's card says so.
 */
function gardenByTimer(variant: number): CorpusCase {
  const fromMs = midnight(3, 20);
  const zones: Draw[] = [0, 0.5, 1].flatMap((later, zone) =>
    byTimer({
      fromMs: midnight(5, 1),
      days: 130,
      everyDays: 2,
      hour: 5 + later,
      forMin: 28,
      lPerS: [0.42, 0.36, 0.3][zone]!,
    }),
  );
  return healthyCase(`healthy-garden-timer-${variant}`, {
    about: 'a garden watered by a timer from May on',
    setup: setup({
      name: `calder-${variant}`,
      seed: 2020 + 100 * variant,
      use: ['house', 'irrigation'],
      draws: zones,
      tankGal: 86,
    }),
    fromMs,
    days: DAYS,
  });
}

/** Watered by hand on most dry evenings, for half an hour to two hours. */
function gardenByHand(variant: number): CorpusCase {
  const seed = 2030 + 100 * variant;
  return healthyCase(`healthy-garden-by-hand-${variant}`, {
    about: 'a garden watered by hand',
    setup: setup({
      name: `dunmore-${variant}`,
      seed,
      use: ['house', 'irrigation'],
      size: 'threeQuarterHp',
      draws: byHand({
        seed,
        chance: 0.55,
        fromMs: midnight(4, 10),
        days: 150,
        everyDays: 1,
        hour: 18,
        forMin: 55,
        lPerS: 0.3,
      }),
    }),
    fromMs: midnight(3, 15),
    days: DAYS,
  });
}

function softenerAtTwo(variant: number): CorpusCase {
  const fromMs = midnight(9, 1);
  return healthyCase(`healthy-softener-${variant}`, {
    about: 'a softener regenerates at two in the night, each third or fourth day',
    setup: setup({
      name: `embley-${variant}`,
      seed: 2040 + 100 * variant,
      draws: softener({ fromMs, days: DAYS, everyDays: 3 + (variant % 2) }),
      fixtures: people(5),
      tankGal: 44,
    }),
    fromMs,
    days: DAYS,
  });
}

/**
 * A pool is filled in May, topped up after. It was written down as expected, so a run of many hours
 * is explained. The hose takes nearly all that the pump gives at 55 psi, or less.
 */
function poolFilled(variant: number): CorpusCase {
  const fillMs = midnight(5, 16) + hours(8);
  const acts: Acts = [
    {
      atMs: fillMs - hours(1),
      act: {
        kind: 'expected',
        well: `farley-${variant}`,
        text: 'the pool is filled',
        until: new Date(fillMs + hours(50)).toISOString(),
      },
    },
  ];
  return healthyCase(`healthy-pool-${variant}`, {
    about: 'a pool is filled for two days in May',
    setup: setup({
      name: `farley-${variant}`,
      seed: 2050 + 100 * variant,
      draws: [
        once(fillMs, 46 * 60, variant % 2 === 0 ? 0.5 : 0.35),
        ...byTimer({ fromMs: midnight(5, 26), days: 90, everyDays: 9, hour: 10, forMin: 70, lPerS: 0.35 }),
      ],
    }),
    fromMs: midnight(4, 1),
    days: DAYS,
    acts,
  });
}

/**
 * On frosty nights a tap is left to trickle, from ten to seven. By day the house is tight, so it is
 * no leak.
 */
function frostTrickle(variant: number): CorpusCase {
  const nights = [8, 9, 10, 22, 23, 24, 25, 40, 41, 55, 56, 57, 58, 59, 75];
  const first = midnight(12, 5);
  return healthyCase(`healthy-frost-trickle-${variant}`, {
    about: 'a tap trickles on frosty nights',
    setup: setup({
      name: `gorse-${variant}`,
      seed: 2060 + 100 * variant,
      draws: nights.map((night) => once(first + night * DAY_MS + hours(22), 9 * 60, 0.011)),
    }),
    fromMs: midnight(11, 10),
    days: 120,
  });
}

/** At 2,000 m the air presses a fifth less; and the day swings widely in the pump house. */
function highUp(variant: number): CorpusCase {
  const base = setup({
    name: `hollins-${variant}`,
    seed: 2070 + 100 * variant,
    altitudeM: 2000,
    utcOffsetH: -6,
    fixtures: people(3),
    node: EVERY_1_S,
  });
  return healthyCase(`healthy-high-up-${variant}`, {
    about: 'a house at 2,000 m, its pump house cold at night and hot by day',
    setup: { ...base, plan: { ...base.plan, daySwingC: 6, seasonSwingC: 5 } },
    fromMs: midnight(2, 1, -6),
    days: 120,
  });
}

/**
 * Two gallons behind a switch: runs of seconds. It is poor practice and was never otherwise; too
 * short runs may be told.
 */
function tinyTank(variant: number): CorpusCase {
  return healthyCase(`healthy-tiny-tank-${variant}`, {
    about: 'a tank of two gallons and a small pump',
    setup: setup({
      name: `irby-${variant}`,
      seed: 2080 + 100 * variant,
      size: 'halfHp',
      tankGal: 2,
      fixtures: people(1.5),
      node: EVERY_1_S,
    }),
    fromMs: midnight(3, 1),
    days: 120,
    allowed: ['short-cycling', 'starts-over-limit'],
  });
}

/** An old galvanised tank whose air lies on the water, renewed by a bleeder at each start. */
function plainTank(variant: number): CorpusCase {
  return healthyCase(`healthy-plain-tank-${variant}`, {
    about: 'a plain tank of 120 gallons with an air control',
    setup: setup({
      name: `jesmond-${variant}`,
      seed: 2090 + 100 * variant,
      cutInPsi: 30,
      cutOutPsi: 50,
      tankGal: 120,
      plainTank: true,
      size: 'threeQuarterHp',
    }),
    fromMs: midnight(3, 1),
    days: DAYS,
  });
}
