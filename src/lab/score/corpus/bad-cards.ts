/**
 * Cards that can't be right for the well they lie beside. The readings say so within days; what
 * must come is a question to whoever wrote the card, and nothing about the well. A card that
 * contradicts itself (cut-out under cut-in) is refused at the door and is no case for this ground
 * (tests/core/domain/read-card.test.ts).
 */
import type { CorpusCase, Fault } from '../case.ts';
import { people } from './habits.ts';
import { faultyCase } from './case-builders.ts';
import { setup, type WellOptions } from './setup.ts';
import { at, FROM_MS } from './times.ts';

interface CardError {
  name: string;
  about: string;
  what: string;
  options?: Partial<WellOptions>;
  card: Record<string, unknown>;
  alarms: Fault['alarms'];
  /** Days until the readings contradict it, and until it should be told. */
  knownAfterDays: number;
  byDays: number;
}

const PUMP = { kind: 'submersible', volts: '230 V', phase: 1, wires: 3 };

const CARD_ERRORS: readonly CardError[] = [
  {
    name: 'precharge-over-cut-in',
    about: 'the card says 45 psi of air under a 40/60 switch; the tank has 38',
    what: 'the precharge on the card is over cut-in',
    card: { tank: { kind: 'captive-air', volume: '62 gal', precharge: '45 psi' } },
    alarms: ['sensor-fault'],
    knownAfterDays: 2,
    byDays: 9,
  },
  {
    name: 'tank-too-large',
    about: 'the card says 320 gal; the tank holds 32',
    what: 'a tank of ten times its volume: each run would have to lift more than any such pump can',
    options: { tankGal: 32 },
    card: { tank: { kind: 'captive-air', volume: '320 gal', precharge: '38 psi' } },
    alarms: ['sensor-fault'],
    knownAfterDays: 2,
    byDays: 9,
  },
  {
    name: 'half-the-amps',
    about:
      "the card says 4.9 A at most, from the 460 V column of the motor's list; the motor draws twice that",
    what: 'the plate on the card is half of what a sound motor of this size draws',
    card: { pump: { ...PUMP, motor: '1 hp', maxAmps: '4.9 A' } },
    alarms: ['sensor-fault', 'amps-high'],
    knownAfterDays: 1,
    byDays: 9,
  },
  {
    name: 'wrong-motor',
    about: 'the card says 3 hp; the pump in the hole has 3/4 hp',
    what: 'the motor on the card would draw 17 A and more',
    options: { size: 'threeQuarterHp' },
    card: { pump: { ...PUMP, motor: '3 hp', maxAmps: '19 A' } },
    alarms: ['sensor-fault', 'amps-low'],
    knownAfterDays: 1,
    byDays: 9,
  },
  {
    name: 'kpa-for-psi',
    about: 'somebody wrote kPa for psi: a switch of 40/60 kPa over readings of 280 to 410',
    what: 'the switch on the card is in the wrong unit',
    card: {
      switch: { cutIn: '40 kPa', cutOut: '60 kPa' },
      tank: { kind: 'captive-air', volume: '62 gal', precharge: '38 kPa' },
      relief: '75 kPa',
    },
    alarms: ['sensor-fault', 'switch-shift'],
    knownAfterDays: 1,
    byDays: 9,
  },
  {
    name: 'other-switch',
    about: 'the card says 30/50; the switch is set to 40/60 since it was bought',
    what: 'the switch on the card is not the one on the wall',
    card: { switch: { cutIn: '30 psi', cutOut: '50 psi' }, relief: '75 psi' },
    alarms: ['sensor-fault', 'switch-shift'],
    knownAfterDays: 1,
    byDays: 9,
  },
];

export function badCards(): CorpusCase[] {
  return [
    ...CARD_ERRORS.map(({ name, about, what, options, card, alarms, knownAfterDays, byDays }, nth) =>
      faultyCase(`bad-card-${name}`, {
        is: 'bad-input',
        about,
        setup: setup({ ...options, name: `paxton-${nth}`, seed: 1300 + nth, fixtures: people(4), card }),
        days: 14,
        fault: {
          what,
          family: `bad-card-${name}`,
          size: 1,
          alarms,
          causes: ['bad-card', ...(name === 'other-switch' ? (['switch-out-of-set'] as const) : [])],
          beganMs: FROM_MS,
          knowableMs: at(knownAfterDays),
          byMs: at(byDays),
        },
      }),
    ),
    changedCard(),
    clampRoundTwoFromTheFirst(),
  ];
}

/**
 * A sound card is changed in the middle, and the new one has a slip: what was right for two weeks
 * is now said to be otherwise.
 */
function changedCard(): CorpusCase {
  const base = setup({ name: 'whitlow', seed: 1320 });
  const slipped = { ...base.card, switch: { cutIn: '20 psi', cutOut: '40 psi' } };
  return faultyCase('bad-card-changed-in-the-middle', {
    is: 'bad-input',
    about: 'the card is changed to a 20/40 switch that was never fitted',
    setup: base,
    days: 22,
    acts: [{ atMs: at(13, 10), act: { kind: 'card-changed', card: slipped } }],
    fault: {
      what: 'the new card names a switch that is not there',
      family: 'bad-card-changed',
      size: 1,
      alarms: ['sensor-fault', 'switch-shift'],
      causes: ['bad-card', 'switch-out-of-set'],
      beganMs: at(13, 10),
      knowableMs: at(14, 10),
      byMs: at(20),
    },
    allowed: ['tank-overcharged'],
  });
}

/**
 * Put round both conductors on the first day: pressure rises and falls, and hardly any current is
 * ever seen.
 */
function clampRoundTwoFromTheFirst(): CorpusCase {
  const base = setup({ name: 'yelland', seed: 1330 });
  return faultyCase('bad-clamp-from-the-first-day', {
    is: 'bad-input',
    about: 'the clamp sits round both conductors from the first day',
    setup: { ...base, plan: { ...base.plan, clamp: { ...base.plan.clamp, gain: 0.015 } } },
    days: 12,
    fault: {
      what: 'the clamp reads about nothing from the first day',
      family: 'bad-clamp',
      size: 1,
      alarms: ['sensor-fault'],
      causes: ['clamp-off'],
      beganMs: FROM_MS,
      knowableMs: at(1),
      byMs: at(4),
    },
  });
}
