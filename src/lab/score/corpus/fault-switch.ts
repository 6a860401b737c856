/**
 * The pressure switch: contacts that weld, points that move, a switch that chatters. A pump that
 * does not stop is news of the minute; a point that has moved by three psi is worth a look at the
 * next visit.
 */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import type { Condition } from '../../plant/params.ts';
import type { CorpusCase } from '../case.ts';
import { once } from './habits.ts';
import { faultyCase, since, NOW_DEADLINE_MS } from './case-builders.ts';
import { EVERY_10_S, EVERY_1_S, EVERY_5_S, setup, type WellOptions } from './setup.ts';
import { at, hours, minutes } from './times.ts';

export function switchFaults(): CorpusCase[] {
  return [...stuckContacts(), ...shifts(), ...chatters()];
}

/**
 * Contacts weld at 10:00; the hose from 10:01 makes the pump start within four minutes and is shut
 * at 10:07. The pump then fills on, and from cut-in to 10 psi over cut-out it needs five minutes at
 * most.
 */
function stuckContacts(): CorpusCase[] {
  const beganMs = at(16, 10);
  const wells: { name: string; options: Partial<WellOptions>; knownAfterMin: number }[] = [
    { name: 'strong-pump', options: { node: EVERY_1_S }, knownAfterMin: 11 },
    { name: 'ten-seconds', options: { size: 'twoHp', tankGal: 86, node: EVERY_10_S }, knownAfterMin: 9 },
    // No pressure to read: only that it runs on, past anything it ever did.
    { name: 'current-alone', options: { node: { ...EVERY_5_S, withoutPressure: true } }, knownAfterMin: 65 },
  ];
  return wells.map(({ name, options, knownAfterMin }, nth) => {
    const knowableMs = beganMs + minutes(knownAfterMin);
    return faultyCase(`contacts-stuck-${nth + 1}-${name}`, {
      about: 'the contacts of the switch weld',
      setup: setup({
        ...options,
        name: `teasel-${nth}`,
        seed: 600 + nth,
        draws: [once(at(16, 10, 1), 6, 0.33)],
      }),
      days: 17,
      schedule: since(beganMs, { stuckContacts: true }),
      fault: {
        what: "the switch's contacts don't open: the pump runs on",
        family: `contacts-stuck-${name}`,
        size: 1,
        alarms: name === 'current-alone' ? ['long-run'] : ['over-pressure', 'long-run'],
        causes: [
          'switch-contacts-stuck',
          'blocked-nipple',
          ...(name === 'current-alone' ? (['open-tap', 'leak', 'broken-pipe'] as const) : []),
        ],
        beganMs,
        knowableMs,
        byMs: knowableMs + NOW_DEADLINE_MS,
      },
    });
  });
}

/**
 * A spring settles or somebody turns a nut: cut-in, cut-out or both stand elsewhere. The mean of
 * ten points is good to half a psi, so a day is enough for six psi; three psi may be an afternoon's
 * heat and want some days.
 */
function shifts(): CorpusCase[] {
  const ways = {
    'cut-out-up': (kpa: number) => ({ cutOutShiftKpa: kpa }),
    'cut-out-down': (kpa: number) => ({ cutOutShiftKpa: -kpa }),
    'cut-in-down': (kpa: number) => ({ cutInShiftKpa: -kpa }),
    both: (kpa: number) => ({ cutInShiftKpa: -kpa, cutOutShiftKpa: -kpa }),
  } as const satisfies Record<string, (kpa: number) => Partial<Condition>>;
  const sizes = [
    { psi: 3, knownAfterDays: 2, byDays: 8 },
    { psi: 6, knownAfterDays: 1, byDays: 3 },
    { psi: 10, knownAfterDays: 0.5, byDays: 2 },
  ];
  return Object.entries(ways).flatMap(([name, shift], which) =>
    sizes.map(({ psi, knownAfterDays, byDays }, size) => {
      const beganMs = at(14, 16);
      // Under 38 psi the tank is empty before the pump starts: the air is now too much for this
      // switch, and may be told as that.
      const tankIsEmpty = psi > 3 && (name === 'cut-in-down' || name === 'both');
      return faultyCase(`switch-${name}-${size + 1}`, {
        about: `the switch is out of set: ${name.replaceAll('-', ' ')} by ${psi} psi`,
        setup: setup({
          name: `umber-${which}${size}`,
          seed: 620 + 10 * which + size,
          ...(which % 2 === 1 && { size: 'threeQuarterHp', tankGal: 44, cardKnowledge: 'no-switch' }),
        }),
        days: 23,
        schedule: since(beganMs, shift(kpaFromPsi(psi))),
        fault: {
          what: `switch ${name.replaceAll('-', ' ')} by ${psi} psi`,
          family: `switch-${name}`,
          size: size + 1,
          alarms: [
            'switch-shift',
            ...(name === 'cut-out-up' && psi === 10 ? (['over-pressure'] as const) : []),
            ...(tankIsEmpty ? (['tank-overcharged'] as const) : []),
          ],
          causes: [
            'switch-out-of-set',
            ...(name === 'both' ? (['transducer-fault'] as const) : []),
            ...(tankIsEmpty ? (['tank-overcharged'] as const) : []),
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
 * Pitted contacts bounce: the pump starts some times at each start. Known after some runs, for the
 * motor suffers each of them.
 */
function chatters(): CorpusCase[] {
  return [5, 15].map((chatter, size) => {
    const beganMs = at(14, 12);
    return faultyCase(`switch-chatters-${size + 1}`, {
      about: `the contacts bounce ${chatter} times at each start`,
      setup: setup({ name: `vetch-${size}`, seed: 670 + size, node: EVERY_1_S }),
      days: 20,
      schedule: since(beganMs, { chatter }),
      fault: {
        what: `each start bounces ${chatter} times`,
        family: 'switch-chatters',
        size: size + 1,
        alarms: ['short-cycling', 'starts-over-limit', 'cycle-count'],
        causes: ['switch-chatter'],
        beganMs,
        knowableMs: beganMs + hours(12),
        byMs: beganMs + at(3 - size) - at(0),
      },
    });
  });
}
