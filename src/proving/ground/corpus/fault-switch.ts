/**
 * The controls: contacts that weld, points that move, a switch that chatters, a nipple that clogs, a line that freezes, heat that
 * pushes. A pump that does not stop is news of the minute; a point that has moved by three psi is worth a look at the next visit.
 */
import { kpaFromPsi } from '../../../../shared/units/pressure.ts';
import type { Condition } from '../../plant/params.ts';
import type { CorpusCase, Fault } from '../case.ts';
import { once, people } from './habits.ts';
import { faulty, growing, since, TELL_NOW_MS, together } from './kinds-of-case.ts';
import { EVERY_10_S, EVERY_1_S, EVERY_5_S, setup, type Wish } from './setup.ts';
import { at, hours, minutes } from './times.ts';

export function switchFaults(): CorpusCase[] {
  return [
    ...stuckContacts(),
    ...shifts(),
    ...chatters(),
    ...blockedNipples(),
    ...frozenLines(),
    nearRelief(),
    ...heatExpansions(),
  ];
}

/**
 * Contacts weld at 10:00; the hose from 10:01 makes the pump start within four minutes and is shut at 10:07. The pump then fills on,
 * and from cut-in to 10 psi over cut-out it needs five minutes at most.
 */
function stuckContacts(): CorpusCase[] {
  const beganMs = at(16, 10);
  const wells: { name: string; wish: Partial<Wish>; knownAfterMin: number }[] = [
    { name: 'strong-pump', wish: { node: EVERY_1_S }, knownAfterMin: 11 },
    { name: 'ten-seconds', wish: { size: 'twoHp', tankGal: 86, node: EVERY_10_S }, knownAfterMin: 9 },
    // No pressure to read: only that it runs on, past anything it ever did.
    { name: 'current-alone', wish: { node: { ...EVERY_5_S, withoutPressure: true } }, knownAfterMin: 65 },
  ];
  return wells.map(({ name, wish, knownAfterMin }, nth) => {
    const knowableMs = beganMs + minutes(knownAfterMin);
    return faulty(`contacts-stuck-${nth + 1}-${name}`, {
      about: 'the contacts of the switch weld',
      setup: setup({
        ...wish,
        name: `teasel-${nth}`,
        seed: 600 + nth,
        draws: [once(at(16, 10, 1), 6, 0.33)],
      }),
      days: 17,
      story: since(beganMs, { stuckContacts: true }),
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
        byMs: knowableMs + TELL_NOW_MS,
      },
    });
  });
}

/**
 * A spring settles or somebody turns a nut: cut-in, cut-out or both stand elsewhere. The mean of ten points is good to half a psi, so
 * a day is enough for six psi; three psi may be an afternoon's heat and want some days.
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
  return Object.entries(ways).flatMap(([way, shift], which) =>
    sizes.map(({ psi, knownAfterDays, byDays }, size) => {
      const beganMs = at(14, 16);
      // Under 38 psi the tank is empty before the pump starts: the air is now too much for this switch, and may be told as that.
      const tankIsEmpty = psi > 3 && (way === 'cut-in-down' || way === 'both');
      return faulty(`switch-${way}-${size + 1}`, {
        about: `the switch is out of set: ${way.replaceAll('-', ' ')} by ${psi} psi`,
        setup: setup({
          name: `umber-${which}${size}`,
          seed: 620 + 10 * which + size,
          ...(which % 2 === 1 && { size: 'threeQuarterHp', tankGal: 44, knows: 'no-switch' }),
        }),
        days: 23,
        story: since(beganMs, shift(kpaFromPsi(psi))),
        fault: {
          what: `switch ${way.replaceAll('-', ' ')} by ${psi} psi`,
          family: `switch-${way}`,
          size: size + 1,
          alarms: [
            'switch-shift',
            ...(way === 'cut-out-up' && psi === 10 ? (['over-pressure'] as const) : []),
            ...(tankIsEmpty ? (['tank-overcharged'] as const) : []),
          ],
          causes: [
            'switch-out-of-set',
            ...(way === 'both' ? (['transducer-fault'] as const) : []),
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

/** Pitted contacts bounce: the pump starts some times at each start. Known after some runs, for the motor suffers each of them. */
function chatters(): CorpusCase[] {
  return [5, 15].map((chatter, size) => {
    const beganMs = at(14, 12);
    return faulty(`switch-chatters-${size + 1}`, {
      about: `the contacts bounce ${chatter} times at each start`,
      setup: setup({ name: `vetch-${size}`, seed: 670 + size, node: EVERY_1_S }),
      days: 20,
      story: since(beganMs, { chatter }),
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

/**
 * Rust closes the quarter-inch nipple: the switch learns of pressure late, so the pump starts too low and stops too high. The
 * transducer, on the tee, sees it; so the points seem to have moved apart, and how far goes with how fast pressure moves.
 */
function blockedNipples(): CorpusCase[] {
  return [15, 60, 600].map((nippleBlockedS, size) => {
    const beganMs = at(14, 12);
    return faulty(`nipple-blocked-${size + 1}`, {
      about: 'rust closes the nipple under the switch',
      setup: setup({ name: `wicket-${size}`, seed: 680 + size }),
      days: 22,
      story: since(beganMs, { nippleBlockedS }),
      fault: {
        what: `the switch feels pressure ${nippleBlockedS} s late`,
        family: 'nipple-blocked',
        size: size + 1,
        alarms:
          size === 2
            ? ['over-pressure', 'switch-shift', 'long-run', 'no-water']
            : ['switch-shift', 'over-pressure'],
        causes: ['blocked-nipple', 'switch-out-of-set', 'switch-contacts-stuck'],
        beganMs,
        knowableMs: beganMs + at([2, 1, 0.5][size]!) - at(0),
        byMs: beganMs + at([7, 3, 2][size]!) - at(0),
      },
    });
  });
}

/**
 * The line to switch and gauge freezes at 05:40 on a bitter morning, while the pump runs for a hose: both hold what stood, so the pump
 * runs on when the hose is shut at 06:15, and the gauge shows a run that moves nothing. An hour of it is no use of this house. The
 * thermometer, where there is one, says why, and said it the evening before. (A line that freezes at rest looks like an empty house.)
 */
function frozenLines(): CorpusCase[] {
  return [false, true].map((thermometer, nth) => {
    const knowableMs = at(16, 7, 10);
    return faulty(`line-frozen-${nth + 1}`, {
      about: 'the line to switch and gauge freezes while the pump runs',
      setup: setup({
        name: `yarrow-${nth}`,
        seed: 690 + nth,
        draws: [once(at(16, 5, 10), 65, 0.52)],
        node: { ...EVERY_5_S, also: thermometer ? ['temperature'] : [] },
      }),
      days: 18,
      story: together(
        growing(at(15, 18), at(16, 4), (share) => ({ temperatureC: 8 - 15 * share })),
        since(at(16, 5, 40), { lineFrozen: true }),
      ),
      fault: {
        what: 'the line to pressure switch and transducer is frozen',
        family: thermometer ? 'line-frozen-thermometer' : 'line-frozen',
        size: 1,
        alarms: [
          ...(thermometer ? (['freeze-risk'] as const) : []),
          'long-run',
          'sensor-fault',
          'cut-out-not-reached',
        ],
        causes: [
          'frozen',
          'transducer-fault',
          ...(thermometer ? [] : (['blocked-nipple', 'open-tap', 'leak', 'broken-pipe'] as const)),
        ],
        beganMs: thermometer ? at(15, 20) : at(16, 5, 40),
        knowableMs,
        byMs: knowableMs + TELL_NOW_MS,
      },
      ...(thermometer && { allowed: ['freeze-risk', 'sensor-fault', 'long-run'] }),
    });
  });
}

/** Cut-out has crept to within 4 psi of the relief valve, which weeps soon. */
function nearRelief(): CorpusCase {
  const beganMs = at(14, 12);
  return faulty('relief-near-1', {
    about: 'cut-out stands 4 psi under the relief valve',
    setup: setup({ name: 'yew-bank', seed: 700 }),
    days: 19,
    story: since(beganMs, { cutOutShiftKpa: kpaFromPsi(11.5) }),
    fault: {
      what: 'each run ends within 4 psi of the relief valve',
      family: 'relief-near',
      size: 1,
      alarms: ['over-pressure', 'switch-shift'],
      causes: ['switch-out-of-set'],
      beganMs,
      knowableMs: beganMs + hours(6),
      byMs: beganMs + hours(24),
    },
  });
}

/**
 * A tiny tank and a large heater behind a check valve: 200 L warmed by 45 C grow by 3 L, and a two-gallon tank has little room for
 * them. Pressure climbs at rest, without current, well over cut-out.
 */
function heatExpansions(): CorpusCase[] {
  return [1.6, 3].map((litres, size) => {
    const beganMs = at(14);
    const forMin = 60;
    const story = (tMs: number): Partial<Condition> => {
      const hour = ((tMs - beganMs) / hours(1)) % 24;
      const heats = tMs >= beganMs && (Math.floor(hour) === 1 || Math.floor(hour) === 23);
      return heats ? { heatExpansionLPerS: litres / (forMin * 60) } : {};
    };
    return faulty(`heat-expansion-${size + 1}`, {
      about: 'the water heater warms at night and its water has nowhere to go',
      setup: setup({
        name: `zinnia-${size}`,
        seed: 710 + size,
        size: 'halfHp',
        tankGal: 2,
        fixtures: people(2),
      }),
      days: 22,
      story,
      fault: {
        what: `${litres} L of expansion each night, into a tank of two gallons`,
        family: 'heat-expansion',
        size: size + 1,
        alarms: ['over-pressure'],
        causes: ['heat-expansion'],
        beganMs,
        knowableMs: at(15, 3),
        byMs: at(19),
      } satisfies Fault,
      allowed: ['short-cycling'],
    });
  });
}
