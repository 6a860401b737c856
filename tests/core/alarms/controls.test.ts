/**
 * Alarms by kind of control: what a drive, a valve, a float and a timer do every day, and what is
 * wrong with each.
 */
import { describe, expect, it } from 'vitest';
import { newHabit } from '../../../src/core/baseline/habit.ts';
import type { Card, Control } from '../../../src/core/domain/card.ts';
import { houseCard, normal, play, PSI, usualBaseline, type KitOptions } from './scene-kit.ts';

type Row = [name: string, text: string, reported: string[], options?: KitOptions];

function table(rows: Row[], options: KitOptions): void {
  it.each(rows)('%s', (_name, text, reported, more) => {
    expect(play(text, { ...options, ...more })).toEqual(reported);
  });
}

function card(control: Control, change: Partial<Card> = {}): Card {
  return houseCard({ ...change, pump: { control, maxAmps: 9.8 } });
}

describe('a drive', () => {
  const drive: KitOptions = {
    card: card('variable-speed', { switch: { cutInKpa: 50 * PSI, cutOutKpa: 60 * PSI } }),
    baseline: usualBaseline({
      amps: normal(3.2, 0.6),
      cutInKpa: normal(48 * PSI, 8),
      cutOutKpa: normal(56 * PSI, 4),
      ranS: normal(45, 25),
      ranLowS: normal(25, 8),
      cyclesPerDay: normal(90, 15, 14),
      longestRunS: 1200,
    }),
  };
  table(
    [
      [
        'hands, showers and a washing machine: a hundred and more starts a day at all distances',
        Array.from(
          { length: 40 },
          (_, i) =>
            `cycle ${20 + ((i * 37) % 50)}s ${2.4 + ((i * 13) % 30) / 20}A 48-56psi every ${0.7 + ((i * 29) % 17) / 3}min`,
        ).join(' | '),
        [],
      ],
      [
        'nobody draws, and it wakes as even as a clock: a leak',
        'cycle 15s 2.5A 48-56psi every 4min x40',
        ['144 min short-cycling raised soon leak'],
      ],
      [
        'the same for an hour is a kitchen',
        'cycle 15s 2.5A 48-56psi every 1.5min x30 | cycle 60s 3A 48-56psi every 20min x3',
        [],
      ],
      [
        'the rinse of a softener, drawn at the least it pumps, after an evening of few draws',
        'cycle 30s 3A 48-56psi every 25min x12 | cycle 15s 2.4A 48-56psi every 0.4min x30',
        [],
      ],
      [
        'it does not come to rest between starts: it hunts',
        'cycle 10s 3A 48-56psi every 0.2min x16',
        ['3 min short-cycling raised soon tank-air-lost'],
      ],
      ['a garden overnight', 'rest 55psi x5 | run 5.5A 55psi x700 | rest 55psi x5', []],
      [
        'a running toilet keeps it at the least it ever draws, a day and a night',
        'rest 55psi x5 | run 2.4A 55psi x900',
        ['846 min long-run raised soon leak'],
      ],
      ['a sprinkler too many: 8 psi under where it wakes', 'rest 55psi x5 | run 8A 40psi x60', []],
      [
        'a broken pipe: full speed, and pressure far under',
        'rest 55psi x5 | run 8A 20psi x30',
        ['20 min long-run raised now broken-pipe'],
      ],
      [
        'no water: full speed at half of the current',
        'rest 55psi x5 | run 3A 22psi x3',
        ['6 min dry-run raised now low-well'],
      ],
      ['little is drawn: low current at its pressure', 'rest 55psi x5 | run 1.3A 55psi x30', []],
      ['a large draw for seconds is no failed start', 'cycle 12s 8.5A 48-56psi every 5min x3', []],
      [
        'it holds 15 psi more than it ever did',
        'rest 55psi x5 | run 4A 72psi x3',
        ['6 min over-pressure raised now switch-out-of-set'],
      ],
      ['it does not wake', 'rest 55psi x5 | rest 20psi x3', ['6 min no-start raised now power-lost']],
    ],
    drive,
  );
});

describe('a constant-pressure valve', () => {
  const valve: KitOptions = {
    card: card('constant-pressure-valve'),
    baseline: usualBaseline({
      ranS: normal(300, 200),
      ranLowS: normal(200, 60),
      ranMinS: 150,
      longestRunS: 3600,
    }),
  };
  table(
    [
      [
        'held at its pressure for hours while a garden is watered',
        'rest 45psi x5 | run 7A 50psi x600 | rest 60psi x5',
        [],
      ],
      ['little is drawn: throttled to its bypass', 'rest 45psi x5 | run 5.6A 50psi x120 | rest 60psi x5', []],
      [
        'after weeks of watering only fills: a third of the usual run',
        'cycle 150s 7A 40-60psi every 40min x30',
        [],
      ],
      [
        'even the shortest fills are cut in half, in a quarter of the runs',
        'cycle 60s 7A 40-60psi every 60min x14',
        ['720 min tank-air-lost raised soon tank-air-lost'],
      ],
      [
        'a tap that drips empties the few gallons of tank again and again',
        'cycle 160s 6A 40-60psi every 12min x40',
        ['432 min short-cycling raised soon leak'],
      ],
      [
        'the switch does not open',
        'rest 45psi x5 | run 6A 75psi x3',
        ['6 min over-pressure raised now switch-contacts-stuck'],
      ],
    ],
    valve,
  );
});

describe('a float', () => {
  const float: KitOptions = {
    card: card('float', { uses: ['stock'], tank: undefined as never }),
    baseline: usualBaseline({
      ranS: normal(1300, 120),
      ranLowS: normal(1200, 60),
      longestRunS: 1700,
      longestRestS: 90_000,
      cyclesPerDay: normal(2, 1, 14),
    }),
  };
  table(
    [
      [
        'a fill of half an hour at whatever pressure hose and height make',
        'rest 0psi x5 | run 8A 4psi x30 | rest 0psi x5',
        [],
      ],
      ['the next hose lies higher: 25 psi more', 'rest 0psi x5 | run 8A 29psi x30 | rest 0psi x5', []],
      [
        'the contacts stick: one hour over the longest',
        'rest 0psi x5 | run 8A 4psi x100',
        ['94 min long-run raised soon switch-contacts-stuck'],
      ],
      [
        'chatter at the water line: four starts in a minute',
        'cycle 4s 8A every 0.25min x4',
        ['1 min short-cycling raised soon switch-chatter'],
      ],
      [
        'even the quickest of eight fills takes twice as long',
        'cycle 2500s 8A every 600min x8',
        ['day 3 slow-fill raised soon worn-pump'],
      ],
      ['a hot week at the trough', 'cycle 1700s 8A every 400min x10', []],
    ],
    {
      ...float,
      kinds: [
        'long-run',
        'short-cycling',
        'slow-fill',
        'over-pressure',
        'no-water',
        'no-start',
        'starts-over-limit',
      ],
    },
  );

  table(
    [
      [
        'current falls by a fifth within a run: the store is as high as it was, and the water is gone',
        'rest | run 8A x2 | run 6.3A x3',
        ['4 min dry-run raised now low-well'],
      ],
      ['current a seventh lower from the start of a run is not dry', 'rest | run 6.9A x10', []],
      [
        'a pump that wore slowly still fills the store at three quarters of its current',
        'cycle 2000s 7.2A every 600min x3 | cycle 2000s 6.6A every 600min x3 | cycle 2000s 6.1A every 600min x3 | cycle 2000s 5.8A every 600min x3',
        [],
      ],
      [
        'the sun drives the pump, and clouds pass',
        'rest | run 8A x2 | run 6.3A x3',
        [],
        { card: houseCard({ pump: { control: 'float', drive: 'solar' } }) },
      ],
    ],
    { ...float, kinds: ['dry-run'] },
  );

  // One fill in two days of the weeks learned, of 20 min each.
  const rare = newHabit();
  for (let at = 0; at < 14; at++) rare.days.push([at % 7, at % 2, (at % 2) * 1300, 255, 1300, 6, 90_000]);
  table(
    [
      [
        'three fills in a row, each a third longer: what is drunk meanwhile is a hundredth of the pump’s flow',
        'cycle 1650s 8A every 2880min x3',
        ['day 6 slow-fill raised soon worn-pump'],
      ],
      [
        'two of the last three runs at 7 % less current',
        'cycle 1300s 8A every 2880min x5 | cycle 1300s 7.44A every 2880min x3',
        ['day 14 amps-low raised soon worn-pump'],
      ],
      [
        'one run at 7 % less',
        'cycle 1300s 8A every 2880min x5 | cycle 1300s 7.44A every 2880min | cycle 1300s 8A every 2880min x3',
        [],
      ],
      ['3 % less is the supply', 'cycle 1300s 8A every 2880min x5 | cycle 1300s 7.76A every 2880min x5', []],
    ],
    { ...float, habit: rare, kinds: ['slow-fill', 'amps-low'] },
  );

  it('a store that is measured to be full waits for no run', () => {
    const dry = 'rest quiet 1.75st x4000';
    const fills = Array.from({ length: 5 }, () => 'rest 1.5st x60 | run 8A 1.4st x25').join(' | ');
    const kinds: KitOptions['kinds'] = ['no-run'];
    expect(play(`${fills} | ${dry}`, { ...float, kinds })).toEqual([]);
    expect(play(`${fills} | rest quiet x4000`, { ...float, kinds })).toHaveLength(1);
  });
});

describe('a pump that panels feed', () => {
  const sunny: KitOptions = {
    card: houseCard({ pump: { control: 'float', drive: 'solar', volts: 90 } }),
    baseline: usualBaseline({
      amps: normal(6, 1),
      ranS: normal(7200, 3000),
      ranLowS: normal(4000, 1500),
      cyclesPerDay: normal(4, 2, 14),
      longestRunS: 6 * 3600,
      longestRestS: 14 * 3600,
    }),
  };
  const day =
    'run 1.5A 30V x20 | run 4A x20 | run 6A x25 | run 2A x5 | run 5A x60 | run 1.2A x20 | rest 0V x600';
  table(
    [
      ['dawn, clouds, dusk and a night without voltage', `${day} | ${day} | ${day}`, []],
      ['with water over the intake it is the sun', 'run 6A 12m x25 | run 2A 12m x30 | rest 12m x10', []],
      [
        'with none over it the pump is dry',
        'run 6A 12m x25 | run 2A 0.4m x5',
        ['26 min dry-run raised now low-well'],
      ],
      [
        'the float calls in the night, and the controller tries at dawn again and again',
        'rest calls x400 | cycle 3s 2A every 1min x20 | run 5A x60',
        [],
      ],
      [
        'a dark day for the stock; a second one is told',
        'run 5A x60 | rest x2240 | run 5A x60 | rest x2700',
        ['day 3 no-run raised now power-lost'],
        { card: houseCard({ uses: ['stock'], pump: { control: 'float', drive: 'solar', volts: 90 } }) },
      ],
      ['more current than usual on a bright day', 'cycle 900s 7.5A every 60min x12', []],
    ],
    sunny,
  );
});
