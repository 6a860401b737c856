import { describe, expect, test } from 'vitest';
import { CAUSES } from '../../../shared/text/en/alarms/kinds.ts';
import { partsList, type PartsListInput, type ActiveAlarm } from '../../../src/logbook/visits/parts-list.ts';
import { partsForCause } from '../../../src/logbook/visits/parts-for-cause.ts';
import type { Card } from '../../../src/core/domain/card.ts';
import { readCard } from '../../../src/core/domain/read-card.ts';

function cardOf(written: object): Card {
  const read = readCard({ well: 'orchard', ...written });
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

const WHOLE = {
  control: 'pressure-switch',
  pump: {
    kind: 'submersible',
    motor: '1 hp',
    volts: '230 V',
    phase: 1,
    wires: 3,
    maxAmps: '9.8 A',
    rated: '10 gpm',
    setDepth: '180 ft',
  },
  switch: { cutIn: '40 psi', cutOut: '60 psi' },
  tank: { kind: 'captive-air', volume: '44 gal', precharge: '38 psi' },
};

const alarm = (kind: ActiveAlarm['alarm'], ...causes: ActiveAlarm['causes']): ActiveAlarm => ({
  alarm: kind,
  pump: 'p1',
  causes,
});
const bring = (more: Partial<PartsListInput>) =>
  partsList({ card: cardOf(WHOLE), active: [], units: 'us', ...more });
const partsOf = (...standing: ActiveAlarm[]): string =>
  bring({ active: standing })
    .map(({ part }) => part)
    .join(' ');

describe('which parts', () => {
  test.each<[string, ActiveAlarm[], string]>([
    ['nothing stands: all that may be asked for', [], 'pump drop-pipe control-box switch tank electrical'],
    ['a worn pump is pulled', [alarm('slow-fill', { cause: 'worn-pump', weight: 0.8 })], 'pump drop-pipe'],
    ['a capacitor', [alarm('failed-start', { cause: 'failing-capacitor', weight: 0.6 })], 'control-box'],
    ['lost air', [alarm('short-cycling', { cause: 'tank-air-lost', weight: 0.8 })], 'tank'],
    ['stuck contacts', [alarm('long-run', { cause: 'switch-contacts-stuck', weight: 0.7 })], 'switch'],
    [
      'what is unlikely is left at home',
      [alarm('slow-fill', { cause: 'closed-valve', weight: 0.9 }, { cause: 'worn-pump', weight: 0.1 })],
      'fittings',
    ],
    [
      'two causes of one part are one item',
      [
        alarm(
          'short-cycling',
          { cause: 'tank-air-lost', weight: 0.5 },
          { cause: 'bladder-burst', weight: 0.5 },
        ),
      ],
      'tank fittings',
    ],
    // A silent node asks for nothing of the well: the visit may be for anything.
    [
      'a node’s own fault',
      [alarm('node-silent', { cause: 'node-offline', weight: 1 })],
      'pump drop-pipe control-box switch tank electrical',
    ],
  ])('%s', (_, standing, parts) => expect(partsOf(...standing)).toBe(parts));

  test('every cause is thought of, and what comes of use alone needs no part', () => {
    const none = CAUSES.filter((cause) => partsForCause(cause).length === 0);
    expect(none).toEqual([
      'generator',
      'softener-regenerating',
      'habit-changed',
      'node-offline',
      'bad-card',
      'serviced',
    ]);
  });

  test('says which causes of which alarms ask', () => {
    const [tank] = bring({ active: [alarm('short-cycling', { cause: 'tank-air-lost', weight: 0.8 })] });
    expect(tank?.reasons).toEqual(['Tank has lost air (Pump starts too often)']);
  });

  test('of two pumps the one whose alarm stands', () => {
    const card = cardOf({
      pumps: { p1: { pump: { setDepth: '100 ft' } }, p2: { pump: { setDepth: '240 ft' } } },
    });
    const standing = [{ ...alarm('slow-fill', { cause: 'worn-pump', weight: 1 }), pump: 'p2' }];
    const items = bring({ card, active: standing });
    expect(items.map(({ part, pump }) => `${part} ${pump}`)).toEqual(['pump p2', 'drop-pipe p2']);
    expect(items[1]?.known).toEqual(['240 ft to pull (setting depth)']);
  });
});

describe('what is said of a part', () => {
  const of = (part: string, more: Partial<PartsListInput> = {}) => {
    const { known, unknown } = bring(more).find((item) => item.part === part)!;
    return { known, unknown };
  };
  const empty = cardOf({});

  test.each<[string, Partial<PartsListInput>, string[], string[]]>([
    [
      'pump',
      {},
      ['submersible', '1 hp', '230 V', 'single-phase', '3-wire', 'rated 10 gpm', 'service-factor amps 9.8 A'],
      ['maker and model', 'casing size for the pump'],
    ],
    [
      'pump',
      { card: empty },
      [],
      [
        'maker and model',
        'motor size',
        'volts',
        'phases',
        'two-wire or three-wire',
        'rated flow',
        'casing size for the pump',
      ],
    ],
    ['drop-pipe', {}, ['180 ft to pull (setting depth)'], ['pipe size', 'pipe material', 'cable']],
    [
      'drop-pipe',
      { units: 'metric' },
      ['54.9 m to pull (setting depth)'],
      ['pipe size', 'pipe material', 'cable'],
    ],
    [
      'drop-pipe',
      { card: cardOf({ pump: { kind: 'jet' } }) },
      ['jet pump above ground: nothing to pull'],
      [],
    ],
    [
      'drop-pipe',
      { card: empty },
      [],
      ['setting depth, the length to pull', 'pipe size', 'pipe material', 'cable'],
    ],
    [
      'control-box',
      {},
      ['for 1 hp', '230 V'],
      ['make and model of the control box', 'capacitor uF and volts from its nameplate'],
    ],
    [
      'control-box',
      { measured: { capacitor: '105 uF' } },
      ['for 1 hp', '230 V', 'capacitor measured 105 uF'],
      ['make and model of the control box'],
    ],
    [
      'control-box',
      { card: cardOf({ pump: { motor: '1 hp', wires: 2 } }) },
      ['two-wire motor: start parts inside the motor, no control box'],
      [],
    ],
    ['control-box', { card: cardOf({ pump: { phase: 3 } }) }, ['three-phase motor: no start parts'], []],
    ['switch', {}, ['range 40 psi to 60 psi'], ['nipple under the switch']],
    [
      'switch',
      { measured: { cutInKpa: 282.7, cutOutKpa: 406.8 } },
      ['range 40 psi to 60 psi', 'measured 41 psi to 59 psi'],
      ['nipple under the switch'],
    ],
    ['switch', { card: empty }, [], ['range of the switch', 'nipple under the switch']],
    [
      'tank',
      {},
      [
        'captive air',
        '44 gal',
        'precharge on the card 38 psi',
        'set to 38 psi, 2 psi below the cut-in on the card',
      ],
      ['maker and model'],
    ],
    [
      'tank',
      { measured: { cutInKpa: 289.6 } },
      [
        'captive air',
        '44 gal',
        'precharge on the card 38 psi',
        'set to 40 psi, 2 psi below the measured cut-in',
      ],
      ['maker and model'],
    ],
    [
      'tank',
      { card: cardOf({ tank: { kind: 'plain', volume: '82 gal' } }) },
      ['plain tank', '82 gal'],
      ['maker and model'],
    ],
    [
      'tank',
      { card: empty },
      [],
      [
        'maker and model',
        'captive air or plain',
        'tank size',
        'precharge',
        'target precharge: Cut-in is neither measured nor on the card. The target is 2 psi (14 kPa) below it.',
      ],
    ],
  ])('%s of %j', (part, more, known, unknown) => expect(of(part, more)).toEqual({ known, unknown }));

  test('what the card describes: makers, pipe, breaker, level', () => {
    const card: Card = {
      ...cardOf(WHOLE),
      description: {
        pumps: { p1: { maker: 'Fenwick', model: 'Deep Ten', controlBox: 'Fenwick Box One' } },
        hole: {
          casingDiameterM: 0.1524,
          dropPipeDiameterM: 0.03175,
          dropPipeMaterial: 'poly',
          staticLevelM: 12.5,
          checkValves: [{ depthM: 30.48 }, { beside: 'beside the tank' }],
        },
        tank: { maker: 'Fenwick' },
        electrical: { panel: 'barn', breaker: '14/16', breakerA: 20, cable: '12/3', wires: {}, photos: [] },
        treatment: [],
        where: {},
      },
    };
    const standing = [
      alarm(
        'level-low',
        { cause: 'low-well', weight: 0.4 },
        { cause: 'failing-motor', weight: 0.3 },
        { cause: 'leak', weight: 0.3 },
      ),
    ];
    const said = Object.fromEntries(
      bring({ card, active: standing }).map(({ part, known }) => [part, known.join(', ')]),
    );
    expect(said).toMatchObject({
      pump: expect.stringMatching(/^Fenwick Deep Ten, .*casing 6 in$/) as string,
      'drop-pipe':
        '180 ft to pull (setting depth), 1-1/4 in, poly, check valve at 100 ft, check valve beside the tank, cable: 12/3',
      'control-box': expect.stringMatching(/^Fenwick Box One, for 1 hp/) as string,
      fittings: 'drop pipe 1-1/4 in',
      electrical: 'panel: barn, breaker 14/16, breaker rating 20 A',
      level: 'static level on the card 41 ft, casing 6 in',
    });
  });
});
