import { describe, expect, test } from 'vitest';
import type { Label } from '../../../shared/api/labels.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { LABEL_KINDS, type LabelKind } from '../../../shared/text/en/label-words.ts';
import { buildLabels } from '../../../src/logbook/labels/labels.ts';
import type { MeasuredFacts } from '../../../src/logbook/readings/newest-readings.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';

const MARCH = Date.parse('2026-03-12T18:00:00Z');
const PSI = 6.894757293168;
const sensors = (si: number) => ({ si, atMs: MARCH, from: 'sensors' as const });

const WHOLE = {
  well: 'north-paddock',
  timeZone: 'America/Denver',
  control: 'pressure-switch',
  pump: {
    kind: 'submersible',
    maker: 'Hollow Creek',
    model: 'Deep Ten',
    motor: '1 hp',
    volts: '230 V',
    phase: 1,
    wires: 3,
    maxAmps: '9.8 A',
    controlBox: 'HC Box One',
    setDepth: '180 ft',
    installed: '2019-05',
    installer: 'Ardal Well and Pump',
  },
  switch: '40/60',
  tank: { volume: '44 gal', precharge: '38 psi' },
  relief: '75 psi',
  hole: {
    depth: '245 ft',
    casing: '6 in',
    casingMaterial: 'steel',
    casingDepth: '80 ft',
    staticLevel: '62 ft',
    dropPipe: '1-1/4 in',
    dropPipeMaterial: 'poly',
    checkValves: ['at the pump', '100 ft'],
    drilled: '2004',
  },
  electrical: {
    panel: 'main panel',
    breaker: '14/16',
    breakerAmps: '20 A',
    wires: { controlBox: ['L1 black', 'R red', 'Y yellow', 'B black'] },
  },
  where: { tank: 'left of the furnace' },
  firm: 'Ardal Well and Pump, 555 0142',
};
const MEASURED: MeasuredFacts = {
  amps: sensors(7.9),
  'cut-in': sensors(41 * PSI),
  'cut-out': sensors(59 * PSI),
  'static-level': { si: 64 * 0.3048, atMs: MARCH, from: 'hand' },
};

function labels(written: object, measured: MeasuredFacts = {}, units: UnitSystem = 'us'): Label[] {
  const read = readCard(written);
  if ('problem' in read) throw new Error(read.problem);
  return buildLabels({ card: read.card, measured: () => measured, madeOn: '2026-07-14' }, units);
}

function label(kind: LabelKind, ...from: Parameters<typeof labels>): Label {
  return labels(...from).find((one) => one.kind === kind)!;
}

/** A label as a person would read it out: main figures first with a star, blanks as a rule. */
function text({ lines }: Label): string[] {
  return lines.map(
    ({ name, value, detail, prominent }) =>
      `${prominent ? '* ' : ''}${name}: ${value?.replaceAll('\u00a0', ' ') ?? '____'}${detail === undefined ? '' : ` (${detail})`}`,
  );
}

describe('labelsOf', () => {
  test('puts the facts of a whole card where they belong, with what was measured beside them', () => {
    expect(Object.fromEntries(labels(WHOLE, MEASURED).map((one) => [one.id, text(one)]))).toEqual({
      tank: [
        '* precharge: 39 psi (with the tank empty of water and the pump off: 2 psi below the measured cut-in of 41 psi)',
        'precharge on the card: 38 psi',
        '* cut-in / cut-out: 40/60 psi (measured 41/59 psi, 2026-03-12)',
        '* tank: 44 gal',
        'tank drawdown, cut-out to cut-in: 10 gal (24 % of the tank, calculated, for sea level)',
        'relief valve: 75 psi',
        'maximum pressure on its plate: ____',
        'make and model: ____',
        'installed: ____',
      ],
      'pressure-switch': [
        '* cut-in / cut-out: 40/60 psi (measured 41/59 psi, 2026-03-12)',
        'low-pressure cut-off: ____',
        'tank precharge: 39 psi',
        'relief valve: 75 psi',
        'wires by terminal: ____',
        'breaker: 14/16, 20 A, main panel',
        'set by, date: ____',
      ],
      'control-box': [
        '* motor, 1 phase, 3 wires: 1 hp, 230 V',
        '* service-factor amps: 9.8 A (running 7.9 A, measured 2026-03-12)',
        'box: HC Box One',
        'capacitor: ____',
        'wires by terminal: L1 black · R red · Y yellow · B black',
        'breaker: 14/16, 20 A, main panel',
        'pump: Hollow Creek Deep Ten',
        'installed: 2019-05, Ardal Well and Pump',
      ],
      panel: [
        '* breaker number: 14/16',
        '* breaker size: 20 A',
        '* motor, 1 phase, 3 wires: 1 hp, 230 V',
        '* service-factor amps: 9.8 A (running 7.9 A, measured 2026-03-12)',
        'call for the well: Ardal Well and Pump, 555 0142',
        'panel: main panel',
        'disconnect: ____',
        'cable to the pump: ____',
      ],
      'well-head': [
        '* hole depth from the ground: 245 ft',
        '* pump set at: 180 ft',
        '* static water level: 62 ft (measured 64 ft, 2026-03-12)',
        'casing: 6 in steel, to 80 ft',
        'pump: Hollow Creek Deep Ten, 1 hp',
        'drop pipe: 1-1/4 in poly',
        'check valves: at the pump, 100 ft',
        'yield: ____',
        'call for the well: Ardal Well and Pump, 555 0142',
        'drilled: 2004',
        'pump installed: 2019-05, Ardal Well and Pump',
      ],
    });
  });

  test('of a well of which only the name is known are blanks with names, without a code that would say nothing', () => {
    const blank = labels({ well: 'barn' });
    expect(blank.map(({ kind }) => kind)).toEqual([...LABEL_KINDS]);
    for (const { lines, plainText } of blank) {
      expect(lines.length).toBeGreaterThanOrEqual(6);
      expect(lines.filter(({ value }) => value !== undefined)).toEqual([]);
      expect(plainText).toEqual([]);
    }
  });

  test('have three main figures at least, so that a blank label asks for what matters', () => {
    for (const { kind, lines } of labels({ well: 'barn' }))
      expect([
        kind,
        lines.filter(({ prominent }) => prominent).length >= (kind === 'pressure-switch' ? 1 : 2),
      ]).toEqual([kind, true]);
  });

  test('say the same facts in the code as in print', () => {
    for (const { lines, plainText } of labels(WHOLE, MEASURED))
      expect(plainText.slice(1)).toHaveLength(lines.filter(({ value }) => value !== undefined).length);
    expect(label('tank', WHOLE, MEASURED).plainText[1]).toBe(
      'precharge: 39 psi, with the tank empty of water and the pump off: 2 psi below the measured cut-in of 41 psi',
    );
  });

  test('print metric units where these are asked for', () => {
    expect(text(label('tank', WHOLE, MEASURED, 'metric')).slice(0, 4)).toEqual([
      '* precharge: 269 kPa (with the tank empty of water and the pump off: 14 kPa below the measured cut-in of 283 kPa)',
      'precharge on the card: 262 kPa',
      '* cut-in / cut-out: 276/414 kPa (measured 283/407 kPa, 2026-03-12)',
      '* tank: 167 L',
    ]);
    expect(text(label('well-head', WHOLE, {}, 'metric'))).toContain('drop pipe: 32 mm poly');
  });

  test('of several pumps have a control box and a breaker for each', () => {
    const two = {
      well: 'barn',
      pumps: {
        p1: { control: 'float', pump: { kind: 'submersible', wires: 2 } },
        p2: { control: 'pressure-switch', pump: { kind: 'booster', phase: 3 } },
      },
    };
    expect(labels(two).map(({ id, title }) => `${id}: ${title}`)).toEqual([
      'tank: Pressure tank',
      'pressure-switch: Pressure switch',
      'control-box p1: Pump disconnect, pump 1',
      'control-box p2: Motor starter, pump 2',
      'panel p1: Well pump breaker, pump 1',
      'panel p2: Well pump breaker, pump 2',
      'well-head: Well head',
    ]);
  });

  test.each([
    [
      'a drive has no switch, and its tank is charged by the manual',
      'variable-speed',
      ['tank', 'control-box', 'panel', 'well-head'],
    ],
    ['a float has neither switch nor pressure tank', 'float', ['control-box', 'panel', 'well-head']],
    ['a throttling valve has both', 'constant-pressure-valve', [...LABEL_KINDS]],
  ])('%s', (_what, control, kinds) => {
    expect(labels({ well: 'barn', control }).map(({ kind }) => kind)).toEqual(kinds);
  });
});

describe('the tank’s label', () => {
  test.each([
    [
      'a drive',
      { control: 'variable-speed', tank: { volume: '20 gal' } },
      '* precharge: ____ (with the tank empty of water and the pump off, as in the manual of the drive)',
    ],
    [
      'a valve',
      { control: 'constant-pressure-valve', tank: { precharge: '25 psi' } },
      '* precharge: 25 psi (with the tank empty of water and the pump off, as in the manual of the valve)',
    ],
    [
      'a plain tank',
      { tank: { kind: 'plain' } },
      '* precharge: none (a plain tank, with air over the water)',
    ],
    [
      'no cut-in',
      {},
      '* precharge: ____ (with the tank empty of water and the pump off: 2 psi below cut-in)',
    ],
    [
      'a written cut-in alone',
      { switch: '30/50' },
      '* precharge: 28 psi (with the tank empty of water and the pump off: 2 psi below the cut-in on the card of 30 psi)',
    ],
  ])('with %s', (_what, card, first) => {
    expect(text(label('tank', { well: 'barn', ...card }))[0]).toBe(first);
  });

  // The published table (tests/core/hydraulics/tank.test.ts): gallons between the switch points
  // with the precharge 2 psi below cut-in.
  test.each([
    ['20/40', '20 gal', '7 gal', '34 %'],
    ['30/50', '44 gal', '13 gal', '30 %'],
    ['40/60', '62 gal', '16 gal', '26 %'],
    ['50/70', '119 gal', '27 gal', '23 %'],
    ['30/50', '86 gal', '25 gal', '30 %'],
  ])(
    'of a %s switch and %s says a tank drawdown of %s, whatever the charge is now',
    (points, volume, drawdown, share) => {
      const tank = { volume, precharge: '5 psi' };
      expect(text(label('tank', { well: 'barn', switch: points, tank, altitude: '0 ft' }))).toContain(
        `tank drawdown, cut-out to cut-in: ${drawdown} (${share} of the tank, calculated)`,
      );
    },
  );

  test('shows a charge that a person read beside the one on the card', () => {
    const precharge = { si: 30 * PSI, atMs: MARCH, from: 'hand' as const };
    expect(text(label('tank', WHOLE, { precharge }))[1]).toBe(
      'precharge on the card: 38 psi (measured 30 psi, 2026-03-12)',
    );
    expect(text(label('tank', { well: 'barn', switch: '40/60' }, { precharge }))[1]).toBe(
      'precharge as it was: 30 psi (measured 2026-03-12)',
    );
  });
});

test('a protector that starts the pump again by itself is a main line of its box', () => {
  const pump = { protector: { restart: '20 min' } };
  expect(text(label('control-box', { well: 'barn', pump }))).toContain('* restarts by itself after: 20 min');
});

test('every label carries its caution: the lock where there are live parts, the empty tank where there is air', () => {
  const cautions = Object.fromEntries(labels({ well: 'barn' }).map(({ kind, caution }) => [kind, caution]));
  const dead = 'Licensed people only: breaker off, locked off, proved dead.';
  expect(cautions['control-box']).toBe(`Live parts, and capacitors stay charged. ${dead}`);
  expect(cautions['pressure-switch']).toBe(`Live parts, and the pump starts by itself. ${dead}`);
  expect(cautions.panel).toMatch(
    /Employees, or after a hum, storm, wet well head: call\. Else reset once, stand aside, nobody at work\. Lock off/u,
  );
  expect(cautions.tank).toMatch(/pump locked off, a tap open, the gauge at zero.*pressure on its plate/u);
  expect(cautions['well-head']).toMatch(
    /Well contractors only: breaker locked off before the cap is lifted.*disinfected and tested.*pits/u,
  );
  for (const { plainText } of labels(WHOLE, MEASURED)) expect(plainText.join('\n')).not.toMatch(/photo/iu);
});
