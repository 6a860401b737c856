/**
 * Water that is used otherwise than this household ever does: a tap left open, a toilet that runs,
 * grandchildren for the summer. What is unusual is not yet wrong; so habit alone is worth a look,
 * and only a run without end, or water that flows all night, more.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import type { CorpusCase } from '../case.ts';
import { during, once, people, weekdays } from './habits.ts';
import { faultyCase, since, NOW_DEADLINE_MS } from './case-builders.ts';
import { EVERY_1_S, setup } from './setup.ts';
import { at, hours, OFFSET_H } from './times.ts';

export function habitFaults(): CorpusCase[] {
  return [...openTaps(), ...runningToilets(), ...fullHouses(), ...manyStarts()];
}

/**
 * A hose is left open in the evening: it takes what the pump gives at 45 to 50 psi, so the run does
 * not end. The house has never had a run of half an hour, but at ten somebody may well be watering,
 * or filling a pool, and pressure and current look the same; after an hour past midnight nobody
 * stands beside it.
 */
function openTaps(): CorpusCase[] {
  return [0.52, 0.62].map((lPerS, size) => {
    const beganMs = at(16, 21);
    const knowableMs = at(17, 1);
    return faultyCase(`tap-left-open-${size + 1}`, {
      about: 'a hose is left open for the night',
      setup: setup({
        name: `fenwick-${size}`,
        seed: 900 + size,
        fixtures: people(3),
        tankGal: 44,
        draws: [once(beganMs, 60 * 11, lPerS)],
        node: EVERY_1_S,
      }),
      days: 18,
      fault: {
        what: `a hose runs ${lPerS} L/s all night`,
        family: 'tap-left-open',
        size: size + 1,
        alarms: ['long-run', 'cut-out-not-reached', 'leak', 'no-water'],
        causes: ['open-tap', 'leak', 'broken-pipe'],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
    });
  });
}

/**
 * A toilet's valve hangs: 100 or 240 L/h by day and night, so the pump starts each half hour or
 * more.
 */
function runningToilets(): CorpusCase[] {
  return [100, 240].map((lPerH, size) => {
    const beganMs = at(15, 20);
    return faultyCase(`toilet-runs-${size + 1}`, {
      about: `a toilet runs ${lPerH} L an hour until somebody jiggles the handle, a week later`,
      setup: setup({ name: `grindle-${size}`, seed: 910 + size, tankGal: 32, fixtures: people(4) }),
      days: 22,
      schedule: since(beganMs, { leakLPerS: lPerH / HOUR_S }),
      fault: {
        what: `a toilet runs ${lPerH} L/h`,
        family: 'toilet-runs',
        size: size + 1,
        alarms: ['leak', 'cycle-count', 'starts-over-limit'],
        causes: ['leak', 'open-tap'],
        beganMs,
        knowableMs: at(16, 6),
        byMs: at(17, 12),
      },
    });
  });
}

/**
 * Grandchildren for four weeks: more runs, nothing else. Worth a note after a week, no sooner:
 * guests come and go.
 */
function fullHouses(): CorpusCase[] {
  return [1.7, 2.6].map((by, size) => {
    const beganMs = at(21);
    const untilMs = at(49);
    return faultyCase(`house-full-${size + 1}`, {
      about: `${by} times the usual is used for four weeks`,
      setup: setup({
        name: `holm-${size}`,
        seed: 920 + size,
        fixtures: people(3),
        tankGal: 44,
        useRatio: during(weekdays(920 + size, OFFSET_H), [{ fromMs: beganMs, untilMs, by }]),
      }),
      days: 56,
      fault: {
        what: `the house uses ${by} times its usual`,
        family: 'house-full',
        size: size + 1,
        alarms: ['cycle-count'],
        causes: ['habit-changed', 'open-tap', 'leak'],
        beganMs,
        knowableMs: at(25),
        byMs: at(38),
      },
    });
  });
}

/**
 * A trickle on a small tank makes a large motor start far too often: a 1-1/2 hp motor may start 100
 * times a day. 0.04 L/s empties 7 L in three minutes.
 */
function manyStarts(): CorpusCase[] {
  return [0.02, 0.05].map((leakLPerS, size) => {
    const beganMs = at(15, 12);
    return faultyCase(`starts-over-limit-${size + 1}`, {
      about: 'a trickle and a small tank make a large motor start all day',
      setup: setup({
        name: `ingle-${size}`,
        seed: 930 + size,
        size: 'oneAndHalfHp',
        tankGal: 14,
        fixtures: people(2),
        node: EVERY_1_S,
      }),
      days: 20,
      schedule: since(beganMs, { leakLPerS }),
      fault: {
        what: `${leakLPerS} L/s trickle, and the motor starts some hundred times a day`,
        family: 'starts-over-limit',
        size: size + 1,
        alarms: ['starts-over-limit', 'leak', 'short-cycling', 'cycle-count'],
        causes: ['leak', 'open-tap'],
        beganMs,
        knowableMs: beganMs + hours(24),
        byMs: beganMs + hours(54),
      },
      allowed: ['leak', 'starts-over-limit'],
    });
  });
}
