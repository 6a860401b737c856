/**
 * The tank's air: lost at once or slowly, pumped in too much, or gone with the bladder. With the
 * tank on the card each quiet fall and each fill measure the air, a dozen a day; so a loss that
 * matters is known within a day and should be told within two. A quarter is what a technician would
 * top up at his next visit: it may take a week.
 */
import type { CorpusCase, Fault } from '../case.ts';
import { people } from './habits.ts';
import { faultyCase, growing, since } from './case-builders.ts';
import { setup, type WellOptions } from './setup.ts';
import { at } from './times.ts';

const SMALL_HOUSE: Partial<WellOptions> = {
  size: 'threeQuarterHp',
  cutInPsi: 30,
  cutOutPsi: 50,
  tankGal: 44,
};

export function tankFaults(): CorpusCase[] {
  return [...suddenLosses(), ...slowLosses(), ...overcharges(), ...bursts()];
}

const AIR_LOST = {
  alarms: ['tank-air-lost', 'short-cycling'],
  causes: ['tank-air-lost', 'bladder-burst'],
} as const satisfies Partial<Fault>;

function suddenLosses(): CorpusCase[] {
  const losses = [
    { airLost: 0.25, knownAfterDays: 3, byDays: 10, what: 'a quarter' },
    { airLost: 0.5, knownAfterDays: 0.75, byDays: 2, what: 'half' },
    { airLost: 0.85, knownAfterDays: 0.5, byDays: 1.5, what: 'most' },
  ];
  const wells: Partial<WellOptions>[] = [{}, SMALL_HOUSE, { cardKnowledge: 'no-tank' }];
  return losses.flatMap(({ airLost, knownAfterDays, byDays, what }, size) =>
    wells.map((well, which) => {
      // Without the tank on the card only the change is seen, and a quarter less drawdown drowns in
      // the spread of uses for long.
      const slower = well.cardKnowledge === 'no-tank' ? 2 : 1;
      const beganMs = at(14, 3);
      return faultyCase(`tank-air-lost-${size + 1}-${['card', 'small', 'no-tank-on-card'][which]!}`, {
        about: `a house's tank loses ${what} of its air in a night`,
        setup: setup({ ...well, name: `alder-${size}${which}`, seed: 100 + 10 * size + which }),
        days: 14 + Math.ceil(slower * byDays) + 3,
        schedule: since(beganMs, { airLost }),
        fault: {
          what: `${what} of the tank's air is lost in one night`,
          family: `tank-air-lost-${['card', 'small', 'no-tank'][which]!}`,
          size: size + 1,
          ...AIR_LOST,
          beganMs,
          knowableMs: beganMs + slower * (at(knownAfterDays) - at(0)),
          byMs: beganMs + slower * (at(byDays) - at(0)),
          ...(airLost === 0.5 && slower === 1 && { measure: 'tank-half' as const }),
        },
      });
    }),
  );
}

/**
 * Through a bladder's wall or a valve: known when 35 % is gone, to be told before two thirds are.
 */
function slowLosses(): CorpusCase[] {
  return [16, 40].map((overDays, nth) => {
    const beganMs = at(12);
    const gone = 0.85;
    const whenGone = (share: number): number => beganMs + (at(overDays) - at(0)) * (share / gone);
    return faultyCase(`tank-air-slowly-lost-${nth + 1}`, {
      about: `the air seeps out within ${overDays} days`,
      setup: setup({ name: `aspen-${nth}`, seed: 140 + nth, fixtures: people(3), tankGal: 86 }),
      days: 12 + overDays + 3,
      schedule: growing(beganMs, beganMs + at(overDays) - at(0), (share) => ({ airLost: gone * share })),
      fault: {
        what: `most of the tank's air is lost over ${overDays} days`,
        family: 'tank-air-slowly-lost',
        // The faster loss is the heavier one.
        size: 2 - nth,
        ...AIR_LOST,
        beganMs,
        knowableMs: whenGone(0.35),
        byMs: whenGone(0.67) + at(1) - at(0),
      },
    });
  });
}

/**
 * Somebody pumped the tank up: over cut-in the water is gone before the pump starts, pressure drops
 * like a stone, and taps sputter at each start. That knee shows at the first start after use;
 * several of them make it sure.
 */
function overcharges(): CorpusCase[] {
  const charges = [
    { prechargePsi: 44, knownAfterDays: 2, byDays: 6 },
    { prechargePsi: 50, knownAfterDays: 1, byDays: 2 },
    { prechargePsi: 56, knownAfterDays: 0.5, byDays: 1.5 },
  ];
  const atmospherePsi = 14.18;
  return charges.map(({ prechargePsi, knownAfterDays, byDays }, size) => {
    const beganMs = at(13, 10);
    return faultyCase(`tank-overcharged-${size + 1}`, {
      about: `the tank is pumped up to ${prechargePsi} psi by somebody who told nobody`,
      setup: setup({ name: `birch-${size}`, seed: 150 + size, fixtures: people(5) }),
      days: 22,
      schedule: since(beganMs, {
        airLost: 1 - (prechargePsi + atmospherePsi) / (38 + atmospherePsi),
      }),
      fault: {
        what: `the air charge is ${prechargePsi} psi in place of 38 psi`,
        family: 'tank-overcharged',
        size: size + 1,
        alarms: ['tank-overcharged', 'short-cycling'],
        causes: ['tank-overcharged'],
        beganMs,
        knowableMs: beganMs + at(knownAfterDays) - at(0),
        byMs: beganMs + at(byDays) - at(0),
      },
    });
  });
}

/**
 * Water meets the air, which dissolves and is drawn off: half of it in two days, nearly all within
 * the week.
 */
function bursts(): CorpusCase[] {
  const wells: Partial<WellOptions>[] = [{}, { ...SMALL_HOUSE, cardKnowledge: 'no-tank' }];
  return wells.map((well, nth) => {
    const beganMs = at(13, 14);
    return faultyCase(`bladder-burst-${nth + 1}`, {
      about: 'the bladder tears in the afternoon',
      setup: setup({ ...well, name: `cedar-${nth}`, seed: 160 + nth }),
      days: 22,
      schedule: since(beganMs, { bladderBurst: true }),
      fault: {
        what: 'the bladder is burst and the tank full of water',
        family: 'bladder-burst',
        size: 2 - nth,
        alarms: ['tank-air-lost', 'short-cycling', 'starts-over-limit'],
        causes: ['bladder-burst', 'tank-air-lost'],
        beganMs,
        knowableMs: at(15, 14),
        byMs: at(17, 14),
      },
    });
  });
}
