/**
 * Sound wells that live otherwise than most: panels, a protector that ends runs by design, a heat
 * pump, machines that draw at night or all the time, and what is done once and told to nobody.
 * Where a stranger would ask (a run far past any before), being asked is allowed.
 */
import { DAY_MS, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { seeded } from '../../model/random.ts';
import type { Condition } from '../../plant/params.ts';
import type { CorpusCase } from '../case.ts';
import { healthyCase } from './case-builders.ts';
import { byTimer, cattle, once, people, type Draw } from './habits.ts';
import { EVERY_10_S, EVERY_5_S, setup, type Setup } from './setup.ts';
import { floatStore } from './stores.ts';
import { dayOf, hourOf, hours, midnight, minutes } from './times.ts';

const DAYS = 90;

export function healthyOrdinary(variant: number): CorpusCase[] {
  return [
    solarTrough(variant),
    endedByProtector(variant),
    heatPump(variant),
    lawnTimer(variant),
    poolOvernight(variant),
    twinSoftener(variant),
    coolerBleed(variant),
    shortGenerator(variant),
  ];
}

/** The plate of a setup's pump with more on it. */
function withPump(base: Setup, more: Record<string, unknown>): Setup {
  return { ...base, card: { ...base.card, pump: { ...(base.card['pump'] as object), ...more } } };
}

const DARK: Partial<Condition> = { circuitDead: true, voltRatio: 0 };
/** Less sun than this share of noon's turns no pump (common practice, no source). */
const MIN_SUN = 0.3;

/**
 * Panels: speed goes with the sun, a cloud takes a third to two thirds of it for some minutes, and
 * each fourth day is overcast.
 */
function sunOn(seed: number): (tMs: number) => Partial<Condition> {
  return (tMs) => {
    const height = Math.sin(((hourOf(tMs) - 6) / 12) * Math.PI);
    if (height <= 0) return DARK;
    const clouded = seeded(seed + 31 * Math.floor(tMs / (7 * MINUTE_MS))).next() < 0.25;
    const overcast = seeded(seed + 17 * dayOf(tMs)).next() < 0.25;
    const sun = height * (clouded ? 0.5 : 1) * (overcast ? 0.45 : 1);
    return sun < MIN_SUN
      ? DARK
      : { frequencyRatio: Math.min(1, 0.72 + 0.4 * sun), voltRatio: 0.6 + 0.4 * sun };
  };
}

function solarTrough(variant: number): CorpusCase {
  const seed = 5000 + 100 * variant;
  const base = floatStore({
    name: `alder-${variant}`,
    seed,
    fixtures: cattle(25),
    node: { ...EVERY_10_S, withoutPressure: true, extraChannels: ['voltage', 'contact'] },
  });
  return healthyCase(`healthy-solar-trough-${variant}`, {
    about: 'panels, a float and a store for cattle: dawn, dusk, clouds and dark days',
    setup: withPump(base, { drive: 'solar' }),
    fromMs: midnight(4, 1),
    days: DAYS,
    schedule: sunOn(seed),
  });
}

/**
 * Granite: the bore fills slowly, and a protector ends each evening's runs when it is empty, as
 * everybody there knows.
 */
function endedByProtector(variant: number): CorpusCase {
  const base = setup({
    name: `birkrigg-${variant}`,
    seed: 5010 + 100 * variant,
    fixtures: people(4),
    draws: byTimer({ fromMs: midnight(4, 1), days: DAYS, everyDays: 1, hour: 18, forMin: 45, lPerS: 0.5 }),
    node: EVERY_5_S,
  });
  const { plan } = base;
  const pump = { ...plan.pumps.pumps[0]!, protector: { belowAmps: 5, afterS: 12, restartS: 1800 } };
  return healthyCase(`healthy-protector-${variant}`, {
    about: 'a well of little yield whose protector ends long runs by design',
    setup: withPump(
      {
        ...base,
        plan: {
          ...plan,
          pumps: { ...plan.pumps, pumps: [pump] },
          hole: { ...plan.hole, yieldLPerSPerM: 0.01, boreLPerM: 18 },
        },
      },
      { protector: { restart: '30 min' } },
    ),
    fromMs: midnight(4, 1),
    days: DAYS,
    // One note of what the protector does; and while it waits the taps are dry.
    allowed: ['no-water', 'dry-run'],
  });
}

/** 2.5 tons at 1.5 gpm a ton, by thermostat; a cold snap of four days in its second month. */
function heatPump(variant: number): CorpusCase {
  const fromMs = midnight(11, 1);
  const seed = 5020 + 100 * variant;
  const random = seeded(seed);
  const draws: Draw[] = [];
  for (let half = 0; half < DAYS * 48; half++) {
    const day = Math.floor(half / 48);
    const snap = day >= 40 && day < 44;
    const part = snap ? 0.97 : 0.25 + 0.003 * day + 0.1 * random.next();
    draws.push({
      fromMs: fromMs + half * minutes(30),
      untilMs: fromMs + half * minutes(30) + Math.round(part * 30) * MINUTE_MS,
      lPerS: 0.24,
    });
  }
  return healthyCase(`healthy-heat-pump-${variant}`, {
    about: 'an open-loop heat pump from autumn on, with a cold snap',
    setup: setup({
      name: `carrick-${variant}`,
      seed,
      use: ['house', 'heat-pump'],
      tankGal: 86,
      draws,
      node: EVERY_10_S,
    }),
    fromMs,
    days: DAYS,
    // In the snap the motor does start more often than it is made for.
    allowed: ['starts-over-limit'],
  });
}

/**
 * A lawn's timer from 03:00 to 04:30, new in May; the card says nothing of what the well is for.
 */
function lawnTimer(variant: number): CorpusCase {
  const base = setup({
    name: `dalton-${variant}`,
    seed: 5030 + 100 * variant,
    draws: byTimer({ fromMs: midnight(5, 1), days: 60, everyDays: 2, hour: 3, forMin: 90, lPerS: 0.6 }),
  });
  const { use: _use, ...card } = base.card;
  return healthyCase(`healthy-lawn-timer-${variant}`, {
    about: 'a lawn timer at three in the night, first in May; no use on the card',
    setup: { ...base, card },
    fromMs: midnight(4, 1),
    days: DAYS,
    allowed: ['long-run'],
  });
}

function poolOvernight(variant: number): CorpusCase {
  return healthyCase(`healthy-pool-overnight-${variant}`, {
    about: 'a pool is filled overnight, and nobody wrote it down',
    setup: setup({
      name: `eskdale-${variant}`,
      seed: 5040 + 100 * variant,
      draws: [once(midnight(5, 16) + hours(20), 13 * 60, 0.5)],
    }),
    fromMs: midnight(4, 1),
    days: DAYS,
    allowed: ['long-run'],
  });
}

/** An iron filter and a softener one after the other, from two in the night, each third day. */
function twinSoftener(variant: number): CorpusCase {
  const fromMs = midnight(4, 1);
  const step = (minute: number, forMin: number, lPerS: number): Draw[] =>
    byTimer({ fromMs: fromMs + minutes(minute), days: DAYS, everyDays: 3, hour: 2, forMin, lPerS });
  return healthyCase(`healthy-twin-softener-${variant}`, {
    about: 'a filter is backwashed and a softener regenerates, for nearly two hours of the night',
    setup: setup({
      name: `fellside-${variant}`,
      seed: 5050 + 100 * variant,
      draws: [...step(0, 22, 0.6), ...step(22, 12, 0.35), ...step(34, 50, 0.1), ...step(84, 20, 0.4)],
      card: { treatment: ['iron filter', 'softener'] },
    }),
    fromMs,
    days: DAYS,
    allowed: ['long-run'],
  });
}

/** A cooler on the roof bleeds 8 gal/h through its season; the card says so. */
function coolerBleed(variant: number): CorpusCase {
  const fromMs = midnight(5, 1);
  return healthyCase(`healthy-cooler-bleed-${variant}`, {
    about: 'an evaporative cooler bleeds all summer, as the card says',
    setup: setup({
      name: `grassmoor-${variant}`,
      seed: 5060 + 100 * variant,
      draws: [once(fromMs + 20 * DAY_MS, 70 * 24 * 60, 0.0084)],
      card: { continuousDraw: '0.5 L/min' },
    }),
    fromMs,
    days: DAYS,
  });
}

const FAST: Partial<Condition> = { frequencyRatio: 1.035, voltRatio: 1.04 };
const UNCHANGED: Partial<Condition> = {};

/** A day on a generator that runs fast and high, without a voltage to say so. */
function shortGenerator(variant: number): CorpusCase {
  const fromMs = midnight(4, 1);
  const on = (tMs: number): boolean => dayOf(tMs) - dayOf(fromMs) === 40;
  return healthyCase(`healthy-fast-generator-${variant}`, {
    about: 'a day on a generator at 62 Hz and 4 % over',
    setup: setup({ name: `haverigg-${variant}`, seed: 5070 + 100 * variant, fixtures: people(5) }),
    fromMs,
    days: DAYS,
    schedule: (tMs) => (on(tMs) ? FAST : UNCHANGED),
  });
}
