/** The alarms to act on at once, a table each: what the well does, and what is told. */
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../../shared/alarms/catalogue.ts';
import { noWater } from '../../../src/core/alarms/water/no-water.ts';
import { houseCard, kit, play, PSI, usualBaseline, type KitOptions } from './scene-kit.ts';

type Row = [name: string, text: string, reported: string[], options?: KitOptions];

function table(rows: Row[], kinds: KitOptions['kinds']): void {
  it.each(rows)('%s', (_name, text, reported, options) => {
    expect(play(text, { ...(kinds && { kinds }), ...options })).toEqual(reported);
  });
}

const float = houseCard({ uses: ['stock'], pump: { control: 'float' }, switch: {} });
const TWO_GAL = { kind: 'captive-air', volumeL: 7.6, prechargeKpa: 38 * PSI } as const;
const threePhase = houseCard({ pump: { phase: 3 } });
/** Current falls from 8.3 A to 7.4 A at cut-out. */
const fill = {
  everyS: 15,
  amps: [null, 8.3, 8.1, 7.9, 7.8, 7.7, 7.6, 7.5, 7.4],
  ampsSpread: [],
  kpa: [],
  kpaSpread: [],
};

describe('over-pressure', () => {
  expect(CATALOGUE['over-pressure'].delays.onS).toBe(10);
  table(
    [
      [
        'runs on past cut-out + 10 psi: now',
        'run 8A 55psi | run 8A 65psi | run 8A 72psi x2',
        ['3 min over-pressure raised now switch-contacts-stuck'],
      ],
      ['an ordinary fill is none', 'run 8A 45psi to 60psi x3 | rest 60psi x5', []],
      [
        'over the plate of the tank, though under cut-out + 10 psi: now',
        'run 8A 55psi | run 8A 60psi | run 8A 66psi x2',
        ['3 min over-pressure raised now switch-contacts-stuck'],
        { card: houseCard({ tank: { kind: 'captive-air', volumeL: 167, maxPressureKpa: 65 * PSI } }) },
      ],
      ['one minute that only touches it at its end is none yet', 'rest 55psi x3 | rest 69psi x3', []],
      [
        'at rest, 14 psi over: behind a sound tank of 44 gal no heater does that',
        'rest 60psi x2 | rest 74psi x3',
        ['3 min over-pressure raised soon tank-air-lost'],
      ],
      [
        'the same behind a plain tank, which has no bladder',
        'rest 60psi x2 | rest 74psi x3',
        ['3 min over-pressure raised soon tank-air-lost'],
        { card: houseCard({ tank: { kind: 'plain', volumeL: 167 } }) },
      ],
      [
        'the same behind a tank that nobody knows',
        'rest 60psi x2 | rest 74psi x3',
        ['3 min over-pressure raised soon tank-air-lost'],
        { card: houseCard({ tank: { kind: 'captive-air' } }) },
      ],
      [
        'the same behind a tank of two gallons: water warms',
        'rest 60psi x2 | rest 74psi x3',
        ['3 min over-pressure raised soon heat-expansion'],
        { card: houseCard({ tank: TWO_GAL }) },
      ],
      [
        'goes a day and two hours after it fell 2 psi under the limit; what comes back by then is the same one',
        'run 8A 72psi x2 | rest 69psi x40 | rest 66psi x1400 | run 8A 72psi x2 | rest 66psi x1600',
        ['1 min over-pressure raised now switch-contacts-stuck', 'day 2 over-pressure cleared'],
      ],
      [
        'within 5 psi of the relief counts, where the relief stands clear of cut-out',
        'run 8A 66psi x3',
        ['1 min over-pressure raised now switch-contacts-stuck'],
        { card: houseCard({ reliefKpa: 70 * PSI }) },
      ],
      [
        'a relief set at cut-out is a wrong card and not over-pressure',
        'run 8A 59psi x3',
        [],
        { card: houseCard({ reliefKpa: 62 * PSI }) },
      ],
      [
        'without cut-out or relief nothing is said',
        'run 8A 90psi x5',
        [],
        { card: houseCard({ switch: {} }), baseline: null },
      ],
      [
        'near the relief valve, where each fill of a tank of two gallons ends at 69 psi: it rose at rest',
        'rest 60psi x5 | rest 60psi to 72psi x20',
        ['22 min over-pressure raised soon heat-expansion'],
        {
          card: houseCard({ reliefKpa: 75 * PSI, tank: TWO_GAL }),
          baseline: usualBaseline({ cutOutKpa: { median: 69 * PSI, spread: 2, n: 40 } }),
        },
      ],
      [
        'what stands there from the stop on is such a fill',
        'run 8A 62psi to 71psi x3 | rest 71psi x40',
        [],
        {
          card: houseCard({ reliefKpa: 75 * PSI }),
          baseline: usualBaseline({ cutOutKpa: { median: 69 * PSI, spread: 2, n: 40 } }),
        },
      ],
      [
        'a switch that was learnt at 70 is measured by 70',
        'run 8A 74psi x3',
        [],
        { baseline: usualBaseline({ cutOutKpa: { median: 70 * PSI, spread: 2, n: 40 } }) },
      ],
    ],
    ['over-pressure'],
  );
});

describe('long-run', () => {
  table(
    [
      [
        'the start changes nothing of a pressure that stood still: the drop pipe has parted',
        'rest 41psi x5 | rest 40.3psi | run 8.1A 40psi x4',
        ['9 min long-run raised now drop-pipe-leak'],
      ],
      [
        'a tap drew before the start: it may take what the pump lifts',
        'rest 46psi to 40psi x3 | run 8.1A 40psi x6',
        [],
      ],
      ['a fill rises', 'rest 41psi x5 | rest 40.3psi | run 8.1A 42psi to 50psi x5', []],
      [
        'with little water over the intake it is told as dry or not at all',
        'rest 41psi 2m x5 | rest 40.3psi 2m | run 8.1A 40psi 2m x6',
        [],
      ],
      [
        'held over cut-out for three minutes, though by less than 10 psi',
        'run 8A 45psi to 60psi x3 | run 8A 64psi x4',
        ['6 min long-run raised now switch-contacts-stuck'],
      ],
      [
        'what a gauge shows that fell within one reading, the tank full, is no running out',
        'rest 50psi x2 | fell pressure 50psi 5s | rest 0psi x5 | run 8A 0psi x40',
        [],
      ],
      ['irrigation for nine hours in the band is none', 'run 8.2A 48psi x540', []],
      [
        'the same for longer than anyone waters',
        'run 8.2A 48psi x1000',
        ['841 min long-run raised soon open-tap'],
        { kinds: ['long-run'] },
      ],
      [
        'a pool that was announced is explained while it is filled',
        'run 8.2A 48psi x2800',
        [],
        { kinds: ['long-run', 'cut-out-not-reached'], expected: 'the pool is filled' },
      ],
      [
        'a field that draws pressure far under cut-in each time does so again',
        'run 8A 27psi x60 | rest 50psi x60 | run 8A 26psi x60 | rest 50psi x60 | run 8A 23psi x60',
        [],
        { card: houseCard({ uses: ['irrigation'] }), kinds: ['long-run'] },
      ],
      [
        'one that falls far under what it ever was is told in a quarter of an hour',
        'run 8A 27psi x60 | rest 50psi x60 | run 8A 26psi x60 | rest 50psi x60 | run 8A 15psi x60',
        ['255 min long-run raised now broken-pipe'],
        { card: houseCard({ uses: ['irrigation'] }), kinds: ['long-run'] },
      ],
      [
        'a garden on the card has thirty hours',
        'run 8.2A 46psi x1700',
        [],
        { card: houseCard({ uses: ['house', 'irrigation'] }) },
      ],
      [
        'under cut-in and not rising for a quarter of an hour',
        'run 8.2A 30psi x20',
        ['15 min long-run raised now broken-pipe'],
      ],
      [
        'just under cut-in it takes half an hour',
        'run 8.2A 39psi x40',
        ['28 min long-run raised now broken-pipe'],
      ],
      ['under cut-in but rising is a large tank filling', 'run 8A 10psi to 38psi x25', []],
      [
        'goes two hours after the pump stopped; what comes again by then is the same one',
        'run 8.2A 30psi x20 | rest 40psi x40 | run 8.2A 30psi x20 | rest 40psi x130',
        ['15 min long-run raised now broken-pipe', '201 min long-run cleared'],
      ],
      [
        'a run that was told is one, though pressure comes up for hours as taps are shut',
        'run 8.2A 30psi x20 | run 8.2A 45psi x200 | run 8.2A 30psi x20 | rest 40psi x130',
        ['15 min long-run raised now broken-pipe', '361 min long-run cleared'],
      ],
      [
        'a float that fills for 2.5 times its longest',
        'run 8A x180',
        ['151 min long-run raised soon switch-contacts-stuck'],
        { card: float, baseline: usualBaseline({ longestRunS: 3600 }) },
      ],
      [
        'a float before anything was learnt has twelve hours',
        'run 8A x700',
        [],
        { card: float, baseline: null },
      ],
      [
        'a pool filled overnight, also where pressure is not measured, is none',
        'run 8A x720 | rest x30 | run 8A 48psi x720',
        [],
        { kinds: ['long-run'] },
      ],
      [
        'without pressure, at less current than at cut-out: the switch should have opened',
        'run 8A x2 | run 6.8A x30',
        ['22 min long-run raised now switch-contacts-stuck'],
        { kinds: ['long-run'], baseline: usualBaseline({ shape: fill }) },
      ],
      [
        'without pressure, at the current of a fill, it is water',
        'run 7.5A x600',
        [],
        { kinds: ['long-run'], baseline: usualBaseline({ shape: fill }) },
      ],
    ],
    ['long-run'],
  );

  it('a motor of three lines that does not keep up after work on it may turn backwards', () => {
    const visited = kit({ card: threePhase, baseline: null }).play('rest 50psi x3');
    visited.act({ kind: 'visit-closed', well: 'north-paddock', newBaseline: true });
    expect(visited.play('run 8/8/8A 30psi x20').said()).toContainEqual(
      '18 min long-run raised now wrong-rotation',
    );
  });
});

describe('dry-run', () => {
  table(
    [
      [
        'half the current and pressure falls',
        'rest 42psi | run 4.4A 39psi to 36psi x3',
        ['2 min dry-run raised now low-well'],
      ],
      ['half the current and pressure rises: it pumps', 'rest 42psi | run 4.4A 42psi to 55psi x3', []],
      [
        'half the current near cut-out is a closed valve and no dry pump',
        'rest 42psi | run 5.5A 57psi x10',
        [],
      ],
      ['without pressure low amps alone, and more of it', 'run 5A x3', ['1 min dry-run raised now low-well']],
      ['without pressure 75 % is not enough', 'run 6A x5', []],
      ['usual current at flat low pressure is a large demand', 'run 8A 38psi x10', []],
      ['a sag of 15 % is none', 'rest 42psi | run 6.9A 38psi x5', []],
      [
        'before learning, under half of the maximum',
        'rest 42psi | run 4A 38psi x3',
        ['2 min dry-run raised now low-well'],
        { baseline: null },
      ],
      [
        'a pump that goes off and on within the minute, behind a tank of two gallons, has a low mean and is not dry',
        'rest 42psi | run 8A 48psi x3 | run 8A 45psi off 35% x6',
        [],
      ],
      [
        'a drive that slows down holds its pressure',
        'run 3A 55psi x30',
        [],
        { card: houseCard({ pump: { control: 'variable-speed' } }) },
      ],
      [
        'a constant-pressure valve throttles: less current at its level',
        'rest 42psi | run 5.5A 50psi x60',
        [],
        { card: houseCard({ pump: { control: 'constant-pressure-valve' } }) },
      ],
      [
        'stands through its rests, and goes a day and two hours after good runs',
        'rest 42psi | run 4.4A 38psi x3 | rest 38psi x60 | run 8A 45psi to 60psi x2 | rest 60psi x800 | run 8A 45psi to 60psi x2 | rest 60psi x800 | run 8A 45psi to 60psi x2',
        ['2 min dry-run raised now low-well', '1669 min dry-run cleared'],
      ],
      [
        'goes too after fills to cut-out at little current: a weak pump lifts its water',
        'rest 42psi | run 5.8A 39psi x3 | rest 38psi x60 | cycle 900s 5.8A 40-60psi every 480min x5',
        ['2 min dry-run raised now closed-valve', '2464 min dry-run cleared'],
      ],
    ],
    ['dry-run'],
  );
});

describe('no-start', () => {
  table(
    [
      [
        'under cut-in for a whole minute without current',
        'rest 45psi x3 | rest 36psi x2',
        ['4 min no-start raised now power-lost'],
      ],
      ['just under cut-in is the scatter of the switch', 'rest 38.8psi x10', []],
      [
        'just under it for twenty minutes is not',
        'rest 38.8psi x25',
        ['20 min no-start raised now power-lost'],
      ],
      ['with current no such thing', 'rest 41psi | run 8A 36psi x5', []],
      ['current that was not heard is not zero', 'rest deaf 30psi x10', []],
      [
        'with voltage present the supply is not the cause',
        'rest 236V 30psi x2',
        ['1 min no-start raised now switch-contacts-open'],
      ],
      [
        'under the low cut-off that is named',
        'rest 15psi x2',
        ['1 min no-start raised now low-pressure-cut-off'],
        { card: houseCard({ switch: { cutInKpa: 40 * PSI, cutOutKpa: 60 * PSI, lowCutOffKpa: 20 * PSI } }) },
      ],
      [
        'a float that calls for two minutes',
        'rest calls x4',
        ['2 min no-start raised now power-lost'],
        { card: float },
      ],
      ['a float that is content', 'rest quiet x30', [], { card: float }],
      [
        'a drive whose card gives the pressure that it holds wakes under it',
        'run 8A 40psi x2 | rest 36psi x60 | rest 20psi x2',
        ['63 min no-start raised now power-lost'],
        { card: houseCard({ pump: { control: 'variable-speed' } }) },
      ],
      [
        'the pump comes late, time and again: one alarm, cleared an hour after the first',
        'rest 36psi x2 | run 8A 36psi to 60psi x6 | rest 36psi x3 | run 8A 36psi to 60psi x6 | rest 55psi x60',
        ['1 min no-start raised now power-lost', '63 min no-start cleared'],
      ],
      [
        'it came by itself at 36 psi before: later it is told under that',
        'rest 37psi x2 | run 8A 36psi to 60psi x6 | rest 55psi x90 | rest 37psi x4 | run 8A 36psi to 60psi x6 | rest 55psi x90 | rest 37psi x30 | rest 33psi x3',
        [
          '1 min no-start raised now power-lost',
          '63 min no-start cleared',
          '229 min no-start raised now power-lost',
        ],
      ],
      ['a switch turned down is known by its last runs', 'cycle 100s 8A 30-50psi x4 | rest 33psi x5', []],
      [
        'without cut-in nobody can say',
        'rest 20psi x20',
        [],
        { card: houseCard({ switch: {} }), baseline: null },
      ],
      [
        'a gauge that fell to nothing within one reading, the tank full, is no dead pump',
        'rest 50psi x2 | fell pressure 50psi 5s | rest 0psi x40',
        [],
      ],
      [
        'from the bottom of the tank it is one',
        'rest 50psi to 42psi x9 | fell pressure 39psi 1s | rest 0psi x5',
        ['10 min no-start raised now power-lost'],
      ],
    ],
    ['no-start'],
  );
});

describe('power-lost', () => {
  table(
    [
      [
        'the last gasp of a node',
        'rest 50psi x2 | no-power barn | rest deaf 50psi x3',
        ['3 min power-lost raised now power-lost'],
      ],
      [
        'a flicker of less than a minute is told only if it stands at the minute',
        'rest 50psi x2 | no-power barn | heard barn | rest 50psi x3',
        [],
      ],
      [
        'measured voltage gone',
        'rest 236V 50psi x2 | rest 3V 50psi x2 | rest 236V 50psi x10 | rest 3V 50psi x2 | rest 236V 50psi x62',
        ['3 min power-lost raised now power-lost', '77 min power-lost cleared'],
      ],
      ['a dip of a third is no loss', 'rest 155V 50psi x5', []],
      ['one line against neutral, before the pump ever ran', 'rest 113V 50psi x5', []],
      [
        'one line against neutral, at which this pump runs',
        'cycle 118s 8A 113V 40-60psi x3 | rest 113V 50psi x5 | rest 40V 50psi x2',
        ['96 min power-lost raised now power-lost'],
      ],
    ],
    ['power-lost'],
  );
});

describe('no-water', () => {
  expect(noWater.scope).toBe('well');
  table(
    [
      [
        'a minute under 5 psi, where cut-in is not known: from 45 psi at once is a burst',
        'rest 45psi x2 | rest 3psi x2',
        ['3 min no-water raised now broken-pipe'],
        { card: houseCard({ switch: {} }), baseline: null },
      ],
      ['where it is, a pump that does not start explains it', 'rest 45psi x2 | rest 3psi x5', []],
      [
        'with the pump running it is the plumbing or the well',
        'run 8A 45psi x2 | run 8A 2psi x3',
        ['3 min no-water raised now broken-pipe'],
      ],
      [
        'slowly lost, with water drawn and no start: the supply',
        'rest 45psi to 1psi x20 | rest 1psi x5',
        ['19 min no-water raised now power-lost'],
        { card: houseCard({ switch: {} }), baseline: null },
      ],
      [
        'nor is a gauge that fell within one reading with the tank full',
        'rest 50psi x2 | fell pressure 50psi 5s | rest 0psi x30',
        [],
        { card: houseCard({ switch: {} }), baseline: null },
      ],
      ['a transducer that never showed pressure is not believed', 'rest 0psi x30', []],
      ['nor one that reads far under nothing', 'rest 45psi | rest -14psi x30', []],
      ['a float fills a store, whatever the pressure', 'rest 25psi x2 | rest 2psi x10', [], { card: float }],
    ],
    ['no-water'],
  );
});

describe('failed-start', () => {
  table(
    [
      [
        'twice within the hour',
        'cycle 3s 40A 40-40psi every 5min x2 !failed-start',
        ['10 min failed-start raised now failing-capacitor'],
      ],
      [
        'once and then a good run',
        'cycle 3s 40A 40-40psi every 5min !failed-start | cycle 110s 8A 40-60psi every 2min x5',
        [],
      ],
      [
        'once, and pressure goes on under cut-in',
        'cycle 3s 40A 38-38psi every 5min !failed-start | rest 37psi x2',
        ['6 min failed-start raised now failing-capacitor'],
      ],
      [
        'a short run at five times the usual is one too',
        'cycle 6s 39A 40-40psi every 2min x2',
        ['4 min failed-start raised now failing-capacitor'],
      ],
      [
        'goes six hours after a good run',
        'cycle 3s 40A 40-40psi every 5min x2 !failed-start | cycle 110s 8A 40-60psi every 60min x8',
        ['10 min failed-start raised now failing-capacitor', '430 min failed-start cleared'],
      ],
    ],
    ['failed-start'],
  );
});

describe('leg-lost', () => {
  table(
    [
      [
        'one line at nothing through a minute',
        'run 8/8/8A 50psi x2 | run 13/0.1/13A 50psi x2',
        ['3 min leg-lost raised now lost-leg'],
        { card: threePhase },
      ],
      ['uneven is not lost', 'run 8/7/5A 50psi x5', [], { card: threePhase }],
      ['one line alone has no others', 'run 8A 50psi x5', []],
    ],
    ['leg-lost'],
  );
});

describe('no-run', () => {
  const usual = usualBaseline({ longestRestS: 36_000 });
  const stock: KitOptions = { card: float, baseline: usual };
  table(
    [
      [
        'stock that drinks every day: twice the longest rest, now',
        'run 8A x5 | rest x1300',
        ['1206 min no-run raised now power-lost'],
        stock,
      ],
      [
        'a float of which nobody said what it fills is soon, a day over its longest',
        'run 8A x5 | rest x2200',
        ['2046 min no-run raised soon power-lost'],
        { ...stock, card: houseCard({ uses: [], pump: { control: 'float' }, switch: {} }) },
      ],
      [
        'the store of a house that stands empty for a week',
        'run 8A x5 | rest x10080',
        [],
        { ...stock, card: houseCard({ pump: { control: 'float' }, switch: {} }) },
      ],
      ['a house without pressure may stand empty for a week', 'run 8A x5 | rest x10080', []],
      [
        'with pressure it is not asked',
        'run 8A 50psi x5 | rest 50psi x3000',
        [],
        { card: houseCard({ uses: ['stock'] }) },
      ],
      [
        'goes with the next run',
        'run 8A x5 | rest x1300 | run 8A x2',
        ['1206 min no-run raised now power-lost', '1306 min no-run cleared'],
        stock,
      ],
    ],
    ['no-run'],
  );
});

describe('store-low', () => {
  const learn = `${Array.from({ length: 5 }, () => 'rest 1.1st x3 | rest 1.9st x3 | day 2 cycles').join(' | ')} | `;
  table(
    [
      [
        'lower than it ever was, by a quarter of what it moves',
        `${learn}rest 0.7st x3`,
        ['day 5 store-low raised now leak'],
        { card: float, baseline: null },
      ],
      [
        'the same, and its pump has not answered for a quarter of an hour',
        `${learn}rest 1.1st x20 | rest 0.7st x3`,
        ['day 5 store-low raised now power-lost'],
        { card: float, baseline: null },
      ],
      [
        'the same, and its pump runs',
        `${learn}run 8A 1.1st x20 | run 8A 0.7st x3`,
        ['day 5 store-low raised now leak'],
        { card: float, baseline: null },
      ],
      ['as low as every day', `${learn}rest 1.05st x10`, [], { card: float }],
      ['before four days nobody knows what is low', 'rest 1.9st x3 | rest 0.2st x10', [], { card: float }],
    ],
    ['store-low'],
  );
});
