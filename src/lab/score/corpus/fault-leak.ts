/**
 * Water that nobody draws. A leak shows in any quiet half hour as a fall of pressure: with 235 L of
 * tank, 5 L/h are 1.7 psi an hour. One night proves a large one; a small one wants some nights, for
 * a dripping tap of one night is no leak. A leak that takes what the pump gives is a broken pipe,
 * and then the hour counts.
 */
import { HOUR_S } from '../../../../shared/units/duration.ts';
import type { CorpusCase } from '../case.ts';
import { people } from './habits.ts';
import { faultyCase, growing, since, NOW_DEADLINE_MS } from './case-builders.ts';
import { EVERY_10_S, EVERY_1_S, setup, type WellOptions } from './setup.ts';
import { at, hours, minutes } from './times.ts';

export function leakFaults(): CorpusCase[] {
  return [...houseLeaks(), ...backLeaks(), ...brokenPipes(), growingLeak()];
}

const SIZES = [
  { lPerH: 5, knownAfterDays: 3, byDays: 8 },
  { lPerH: 15, knownAfterDays: 2, byDays: 5 },
  { lPerH: 45, knownAfterDays: 1, byDays: 3 },
  { lPerH: 150, knownAfterDays: 0.6, byDays: 2 },
];

function houseLeaks(): CorpusCase[] {
  const wells: Partial<WellOptions>[] = [
    {},
    { size: 'halfHp', cutInPsi: 30, cutOutPsi: 50, tankGal: 32, fixtures: people(2), node: EVERY_1_S },
    { tankGal: 86, fixtures: people(6), node: EVERY_10_S, cardKnowledge: 'no-tank' },
  ];
  return SIZES.flatMap(({ lPerH, knownAfterDays, byDays }, size) =>
    wells.map((well, which) => {
      const beganMs = at(14, 11);
      return faultyCase(`leak-${size + 1}-${['house', 'cottage', 'large-house'][which]!}`, {
        about: `a toilet's valve or a fitting lets ${lPerH} L an hour through`,
        setup: setup({ ...well, name: `clover-${size}${which}`, seed: 200 + 10 * size + which }),
        days: 25,
        schedule: since(beganMs, { leakLPerS: lPerH / HOUR_S }),
        fault: {
          what: `a leak of ${lPerH} L/h in the house`,
          family: `leak-${['house', 'cottage', 'large-house'][which]!}`,
          size: size + 1,
          // 150 L/h is ten gallons in a quarter of an hour: the pump starts by itself all night.
          alarms: lPerH >= 100 ? ['leak', 'cycle-count'] : ['leak'],
          causes: ['leak', 'open-tap'],
          beganMs,
          knowableMs: beganMs + at(knownAfterDays) - at(0),
          byMs: beganMs + at(byDays) - at(0),
        },
      });
    }),
  );
}

/**
 * A check valve, a drop pipe or a pitless adapter that lets water back. While the pipe stays full
 * nothing but a closed house valve parts it from a leak in the house, and either may be named;
 * where the pipe drains as well, the pump first fills it again, and that delay points down the
 * well.
 */
function backLeaks(): CorpusCase[] {
  const sizes = [
    { lPerH: 10, knownAfterDays: 3, byDays: 7 },
    { lPerH: 40, knownAfterDays: 1.5, byDays: 4 },
    { lPerH: 160, knownAfterDays: 0.6, byDays: 2 },
  ];
  return sizes.flatMap(({ lPerH, knownAfterDays, byDays }, size) =>
    [false, true].map((drains, nth) => {
      const beganMs = at(14, 9);
      return faultyCase(`check-valve-leaks-${size + 1}${drains ? '-and-drains' : ''}`, {
        about: `the check valve lets ${lPerH} L an hour back into the well${drains ? ', and the drop pipe drains' : ''}`,
        setup: setup({ name: `dell-${size}${nth}`, seed: 240 + 2 * size + nth, node: EVERY_1_S }),
        days: 24,
        schedule: since(beganMs, {
          backLeakLPerS: lPerH / HOUR_S,
          ...(drains && { dropPipeDrainsLPerS: (3 * lPerH) / HOUR_S }),
        }),
        fault: {
          what: `${lPerH} L/h fall back down the drop pipe`,
          family: drains ? 'check-valve-drains' : 'check-valve',
          size: size + 1,
          alarms: ['leak'],
          causes: [
            'check-valve',
            'drop-pipe-leak',
            'pitless-leak',
            ...(drains ? [] : (['leak', 'open-tap'] as const)),
          ],
          beganMs,
          knowableMs: beganMs + at(knownAfterDays) - at(0),
          byMs: beganMs + at(byDays) - at(0),
        },
      });
    }),
  );
}

/**
 * The pipe to the barn parts at night. The pump gives 0.5 to 0.6 L/s: a break of 0.45 L/s lets it
 * fill for a long time, one of 0.9 L/s takes all of it and the pressure stands low. No household
 * draws through an hour at three in the morning.
 */
function brokenPipes(): CorpusCase[] {
  return [0.5, 0.9, 1.6].map((lPerS, size) => {
    const beganMs = at(15, 3);
    const knowableMs = beganMs + hours(1);
    return faultyCase(`broken-pipe-${size + 1}`, {
      about: `a buried pipe parts and runs ${lPerS} L/s at 50 psi`,
      setup: setup({ name: `elder-${size}`, seed: 250 + size }),
      days: 17,
      schedule: since(beganMs, { leakLPerS: lPerS }),
      fault: {
        what: `a pipe is broken: ${lPerS} L/s`,
        family: 'broken-pipe',
        size: size + 1,
        alarms: ['long-run', 'cut-out-not-reached', 'no-water', 'leak'],
        causes: ['broken-pipe', 'open-tap', 'leak'],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
    });
  });
}

/**
 * A toilet's flapper that hardens: from nothing to 60 L/h in three weeks. Known when it passes 12
 * L/h for some nights.
 */
function growingLeak(): CorpusCase {
  const beganMs = at(12);
  return faultyCase('leak-grows-1', {
    about: "a toilet's flapper hardens over three weeks",
    setup: setup({ name: 'fern-hill', seed: 260, fixtures: people(3) }),
    days: 36,
    schedule: growing(beganMs, at(33), (share) => ({ leakLPerS: (60 * share) / HOUR_S })),
    fault: {
      what: 'a leak that grows to 60 L/h in three weeks',
      family: 'leak-grows',
      size: 1,
      alarms: ['leak'],
      causes: ['leak', 'open-tap'],
      beganMs,
      knowableMs: at(17),
      byMs: at(24) + minutes(1),
    },
  });
}
