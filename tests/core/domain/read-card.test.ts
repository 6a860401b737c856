/** Cards as people write them: what is read, what is refused, and in which words. */
import * as fc from 'fast-check';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Card } from '../../../src/core/domain/card.ts';
import { defaultCardForNode, cardIssues, readCard } from '../../../src/core/domain/read-card.ts';

/** The contract's own example (section 5). */
const EXAMPLE = {
  well: 'north-paddock',
  site: 'home-farm',
  timeZone: 'America/Denver',
  altitude: '5200 ft',
  use: 'stock',
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
    installed: '2019-05-14',
  },
  switch: { cutIn: '40 psi', cutOut: '60 psi', lowCutOff: '20 psi' },
  tank: { kind: 'captive-air', volume: '44 gal', precharge: '38 psi' },
  relief: '75 psi',
  falseAlarmsPerYear: 0.1,
};

function cardOf(json: unknown): Card {
  const read = readCard(json);
  if ('problem' in read) throw new Error(read.problem);
  return read.card;
}

function problemOf(json: unknown): string | undefined {
  const read = readCard(json);
  return 'problem' in read ? read.problem : undefined;
}

describe('readCard reads', () => {
  test("the contract's example into SI", () => {
    const card = cardOf(EXAMPLE);
    expect(card).toMatchObject({
      well: 'north-paddock',
      site: 'home-farm',
      timeZone: 'America/Denver',
      altitudeKnown: true,
      uses: ['stock'],
      reads: [],
    });
    expect(card.altitudeM).toBeCloseTo(1584.96, 6);
    expect(card.switch.cutInKpa).toBeCloseTo(275.79, 2);
    expect(card.switch.cutOutKpa).toBeCloseTo(413.685, 2);
    expect(card.switch.lowCutOffKpa).toBeCloseTo(137.9, 1);
    expect(card.tank).toMatchObject({ kind: 'captive-air' });
    expect(card.tank?.volumeL).toBeCloseTo(166.558, 3);
    expect(card.reliefKpa).toBeCloseTo(517.1, 1);
    expect(card.falseAlarmsPerYear).toBe(0.1);
    expect(card.pumps).toHaveLength(1);
    const [pump] = card.pumps;
    expect(pump).toMatchObject({
      id: 'p1',
      control: 'pressure-switch',
      kind: 'submersible',
      volts: 230,
      phase: 1,
      wires: 3,
      maxAmps: 9.8,
      installed: '2019-05-14',
    });
    expect(pump?.motorW).toBeCloseTo(745.7, 1);
    expect(pump?.setDepthM).toBeCloseTo(54.864, 6);
    expect(pump?.ratedLPerS).toBeCloseTo(0.6309, 4);
  });

  test('nothing but a name, inventing nothing', () => {
    expect(cardOf({ well: 'a' })).toEqual(defaultCardForNode('a'));
    expect(cardOf({ well: 'a' })).toEqual({
      well: 'a',
      timeZone: 'UTC',
      altitudeM: 0,
      altitudeKnown: false,
      uses: [],
      pumps: [{ id: 'p1', control: 'pressure-switch' }],
      switch: {},
      reads: [],
    });
  });

  test.each<[string, object, object]>([
    ['several uses', { use: ['stock', 'house'] }, { uses: ['house', 'stock'] }],
    [
      'a tank by its volume alone as captive-air',
      { tank: { volume: '44 gal' } },
      { tank: { kind: 'captive-air' } },
    ],
    [
      'a tank without an air charge',
      { tank: { precharge: '0 psi' } },
      { tank: { kind: 'captive-air', prechargeKpa: 0 } },
    ],
    ['a plain tank', { tank: { kind: 'plain', volume: '80 gal' } }, { tank: { kind: 'plain' } }],
    [
      'what feeds the pump, and the model of its drive',
      { pump: { kind: 'positive-displacement', drive: 'solar', driveModel: 'Tarn S1' } },
      {
        pumps: [{ kind: 'positive-displacement', drive: 'solar' }],
        description: { pumps: { p1: { driveModel: 'Tarn S1' } } },
      },
    ],
    [
      "the drive's model where earlier cards have it",
      { pump: { drive: 'Tarn S1' } },
      { description: { pumps: { p1: { driveModel: 'Tarn S1' } } } },
    ],
    [
      'what people want to be told of, and who drinks',
      { use: 'heat-pump', longRun: '2 h', levelLow: '6 m', stockHeads: 120, tank: { maxPressure: '7 bar' } },
      {
        uses: ['heat-pump'],
        longRunS: 7200,
        levelLowM: 6,
        stockHeads: 120,
        tank: { kind: 'captive-air', maxPressureKpa: 700 },
      },
    ],
    ['a float', { control: 'float' }, { pumps: [{ id: 'p1', control: 'float' }] }],
    ['an altitude under the sea', { altitude: '-50 ft' }, { altitudeKnown: true }],
    [
      'a protector, a clamp on a lead and what shares it',
      { pump: { protector: { restart: '20 min' }, clamp: 'black', alsoOnClamp: 'heat tape' } },
      { pumps: [{ protectorRestartS: 1200, clamp: 'black', alsoOnClamp: 'heat tape' }] },
    ],
    [
      'a three-phase motor on a single-phase supply',
      { control: 'variable-speed', pump: { phase: 3, supplyPhase: 1 } },
      { pumps: [{ control: 'variable-speed', phase: 3, supplyPhase: 1 }] },
    ],
    [
      'several pumps',
      { pumps: { p2: { control: 'float' }, p1: { pump: { motor: '2 hp' } } } },
      {
        pumps: [
          { id: 'p1', control: 'pressure-switch' },
          { id: 'p2', control: 'float' },
        ],
      },
    ],
    [
      'where channels come from',
      {
        pumps: { p1: {}, p2: {} },
        reads: {
          current: 'panel-a:p2/current',
          'p2/current': 'panel-b:current',
          pressure: 'pumphouse:pressure',
        },
      },
      {
        reads: [
          { channel: 'current', node: 'panel-a', nodeChannel: 'p2/current', sinceMs: 0 },
          { channel: 'p2/current', node: 'panel-b', nodeChannel: 'current', sinceMs: 0 },
          { channel: 'pressure', node: 'pumphouse', nodeChannel: 'pressure', sinceMs: 0 },
        ],
      },
    ],
    [
      'a node that was replaced',
      { reads: [{ current: 'old:current' }, { since: '2026-03-01T12:00:00-07:00', current: 'new:current' }] },
      {
        reads: [
          { channel: 'current', node: 'old', nodeChannel: 'current', sinceMs: 0 },
          { channel: 'current', node: 'new', nodeChannel: 'current', sinceMs: Date.UTC(2026, 2, 1, 19) },
        ],
      },
    ],
  ])('%s', (_name, extra, want) => {
    expect(cardOf({ well: 'a', ...extra })).toMatchObject(want);
  });
});

describe('readCard reads what describes a well', () => {
  const DESCRIBED = {
    well: 'a',
    pump: {
      maker: 'Tarn',
      model: 'Deep Ten',
      controlBox: 'Box One',
      installer: 'Larch Pumps',
      motor: '1 hp',
    },
    switch: '40/60',
    tank: { maker: 'Fell', model: 'Broad 44', installed: '2019' },
    hole: {
      depth: '320 ft',
      drilled: '2004-08',
      casing: '6 in',
      casingDepth: '60 ft',
      casingMaterial: 'steel',
      staticLevel: '41 ft',
      dropPipe: '1-1/4 in',
      dropPipeMaterial: 'poly, 160 psi',
      checkValves: ['at the pump', '160 ft'],
      yield: '12 gpm',
      driller: 'Ash & Son',
      log: 'County 88-1204',
    },
    electrical: {
      panel: 'barn, west wall',
      breaker: '14/16',
      breakerAmps: '20 A',
      disconnect: 'beside the well head',
      cable: '12 AWG copper, 240 ft',
      wires: { switch: ['L1 black', 'L2 red', 'T1 black', 'T2 red'], controlBox: ['yellow', 'black', 'red'] },
      photos: ['0'.repeat(64)],
    },
    treatment: ['softener since 2018', 'UV lamp'],
    where: { tank: 'left of the furnace', wellHead: 'under the lilac' },
    owner: 'R. Alder',
    contact: 'Ines, 555-0142',
    firm: 'Larch Pumps, 555-0177',
  };

  test('into a part of its own, and leaves the rest as it is without', () => {
    const { description, ...rest } = cardOf(DESCRIBED);
    const plain = { well: 'a', pump: { motor: '1 hp' }, switch: { cutIn: '40 psi', cutOut: '60 psi' } };
    // A tank of which only the maker is known has no volume and no air to reckon with.
    expect(rest).toEqual(cardOf(plain));
    expect(description).toMatchObject({
      pumps: { p1: { maker: 'Tarn', model: 'Deep Ten', controlBox: 'Box One', installer: 'Larch Pumps' } },
      tank: { maker: 'Fell', model: 'Broad 44', installed: '2019' },
      treatment: DESCRIBED.treatment,
      where: DESCRIBED.where,
      owner: 'R. Alder',
    });
    expect(description?.hole.depthM).toBeCloseTo(97.536, 3);
    expect(description?.hole.dropPipeDiameterM).toBeCloseTo(0.03175, 5);
    expect(description?.hole.checkValves[0]).toEqual({ beside: 'at the pump' });
    expect(description?.electrical).toMatchObject({
      breakerA: 20,
      wires: DESCRIBED.electrical.wires,
      photos: DESCRIBED.electrical.photos,
    });
  });

  test('what a technician reads at a visit', () => {
    const { description, ...rest } = cardOf({
      well: 'a',
      pump: {
        motor: '1 hp',
        serial: '19F-4471',
        warrantyUntil: '2024-05',
        stages: 11,
        shutOffHead: '390 ft',
        curve: ['0 gpm at 390 ft', '10 gpm at 250 ft'],
        runCapacitor: '35 uF',
        runCapacitorVolts: '370 V',
        wire: { dropSize: '12 AWG', dropMaterial: 'copper', dropLength: '190 ft', splice: 'heat shrink' },
      },
      tank: { drawOff: '13 gal' },
      storage: { volume: '1500 gal', onLevel: '4 ft' },
      hole: { testFlow: '12 gpm', testTime: '4 h' },
      treatmentUnits: { uvLamp: { lampLife: '9000 h', bypass: 'in-service' }, softener: {} },
      distances: { septicTank: '110 ft' },
      permit: { number: 'W-88', allowed: '3 acre-ft' },
      position: '40.01, -105.27',
      gate: 'east gate, 4821',
    });
    expect(rest).toEqual(cardOf({ well: 'a', pump: { motor: '1 hp' } }));
    const { curve, wire, ...pump } = description?.pumps['p1'] ?? {};
    expect(pump).toMatchObject({ stages: 11, warrantyUntil: '2024-05', runCapacitorUf: 35 });
    expect(curve?.map(({ flowLPerS, headM }) => [flowLPerS.toFixed(3), headM.toFixed(1)])).toEqual([
      ['0.000', '118.9'],
      ['0.631', '76.2'],
    ]);
    expect(wire?.dropMm2).toBeCloseTo(3.31, 2);
    expect(description?.tank.drawOffL).toBeCloseTo(49.2, 1);
    expect(description?.treatmentUnits).toEqual({ uvLamp: { lampLifeS: 32_400_000, bypass: 'in-service' } });
    expect(description?.permit?.allowedL).toBeCloseTo(3_700_445.5, 0);
    expect(description?.position).toEqual({ latitude: 40.01, longitude: -105.27 });
  });

  test.each(['40/60', { points: '40/60' }, { points: '40-60 psi' }, { cutIn: '40 psi', cutOut: '60 psi' }])(
    'the switch %j',
    (written) => {
      const { cutInKpa, cutOutKpa } = cardOf({ well: 'a', switch: written }).switch;
      expect(cutInKpa).toBeCloseTo(275.79, 2);
      expect(cutOutKpa).toBeCloseTo(413.685, 2);
    },
  );

  test('nothing into nothing', () => {
    expect(
      cardOf({
        well: 'a',
        hole: {},
        electrical: { wires: {} },
        where: {},
        tank: {},
        pump: {},
        storage: {},
        permit: {},
      }),
    ).toEqual(defaultCardForNode('a'));
  });

  test.each<[object, string]>([
    [{ switch: '60/40' }, 'switch must have its cut-in above 0 and below its cut-out: "60/40"'],
    [{ switch: '40/600' }, 'switch must be from 0.5 psi (3.4 kPa) to 300 psi (2,068 kPa): "40/600"'],
    [{ switch: { points: '40/60', cutIn: '40 psi' } }, 'switch.cutIn must not be given together with points'],
    [{ switch: { points: '40/60', lowCutOff: '45 psi' } }, 'switch.lowCutOff must be below switch.points'],
    [{ hole: { depth: '320' } }, 'hole.depth must be a length'],
    [{ hole: { depth: '9000 ft' } }, 'hole.depth must be from 1 ft'],
    [{ hole: { drilled: '2004-13' } }, 'hole.drilled must be a date such as'],
    [{ hole: { checkValves: '160 ft' } }, 'hole.checkValves must be a list of at most 25 lines'],
    [{ hole: { checkValves: ['160'] } }, 'hole.checkValves must each be a depth from 1 ft'],
    [{ electrical: { breakerAmps: '20 V' } }, 'electrical.breakerAmps must be a current in A'],
    [{ electrical: { wires: { switch: ['x'.repeat(41)] } } }, 'electrical.wires.switch must each be text'],
    [{ electrical: { wires: { attic: [] } } }, 'electrical.wires.attic is unknown'],
    [{ electrical: { photos: ['../x'] } }, 'electrical.photos must be a list of at most 20 documents'],
    [{ where: { cellar: 'x' } }, 'where.cellar is unknown'],
    [{ where: { tank: 'two\nlines' } }, 'where.tank must be text of 1 to 200 characters in one line'],
    [{ treatment: 'softener' }, 'treatment must be a list'],
    [{ pump: { curve: ['10 gpm'] } }, 'pump.curve must each be a flow and a head (such as'],
    [{ pump: { wire: { dropSize: '12' } } }, 'pump.wire.dropSize must be a wire size in AWG'],
    [{ pump: { wire: { dropMaterial: 'steel' } } }, 'pump.wire.dropMaterial must be one of copper'],
    [{ position: 'under the lilac' }, 'position must be latitude and longitude'],
    [{ treatmentUnits: { boiler: {} } }, 'treatmentUnits.boiler is unknown'],
  ])('%j is refused', (extra, problem) => {
    expect(problemOf({ well: 'a', ...extra })).toContain(`Cannot read card: ${problem}`);
  });

  test('problemsOfCard tells all of them, each with its key', () => {
    const wrong = { well: 'a', pump: { motor: '1 psi' }, hole: { depth: '0 ft' }, owner: '' };
    expect(cardIssues(wrong).map(({ key }) => key)).toEqual(['pump.motor', 'hole.depth', 'owner']);
  });
});

describe('readCard refuses', () => {
  test.each<[string, unknown, string]>([
    ['no object', [], 'Cannot read card: (root) must be an object in braces: []'],
    ['no well', {}, 'Cannot read card: well must be given: nothing'],
    [
      'a well that is no name',
      { well: 'North Paddock' },
      'Cannot read card: well must be 1 to 40 characters from a-z, 0-9 and -: "North Paddock"',
    ],
    [
      'the wrong unit',
      { well: 'a', pump: { maxAmps: '9.8 psi' } },
      'Cannot read card: pump.maxAmps must be a current in A: "9.8 psi"',
    ],
    [
      'a bare number',
      { well: 'a', pump: { maxAmps: 9.8 } },
      'Cannot read card: pump.maxAmps must be a current in A: 9.8',
    ],
    [
      'text without a unit',
      { well: 'a', relief: '75' },
      'Cannot read card: relief must be a pressure in kPa, psi or bar: "75"',
    ],
    [
      'false alarms beyond sense',
      { well: 'a', falseAlarmsPerYear: 0 },
      'Cannot read card: falseAlarmsPerYear must be a number from 0.001 to 10: 0',
    ],
    [
      'half an animal',
      { well: 'a', stockHeads: 1.5 },
      'Cannot read card: stockHeads must be a whole number from 1 to 100,000: 1.5',
    ],
    [
      'a run that is none',
      { well: 'a', longRun: '5 s' },
      'Cannot read card: longRun must be from 1 min to 2,160 h (90 days): "5 s"',
    ],
    [
      'null',
      { well: 'a', relief: null },
      'Cannot read card: relief must be a pressure in kPa, psi or bar: null',
    ],
    [
      'cut-in over cut-out',
      { well: 'a', switch: { cutIn: '60 psi', cutOut: '40 psi' } },
      'Cannot read card: switch.cutIn must be below switch.cutOut: 60 psi, 40 psi',
    ],
    [
      'cut-in at cut-out',
      { well: 'a', switch: { cutIn: '40 psi', cutOut: '40 psi' } },
      'Cannot read card: switch.cutIn must be below switch.cutOut: 40 psi, 40 psi',
    ],
    [
      'a low cut-off over cut-in',
      { well: 'a', switch: { cutIn: '40 psi', lowCutOff: '45 psi' } },
      'Cannot read card: switch.lowCutOff must be below switch.cutIn: 45 psi, 40 psi',
    ],
    [
      'a negative volume',
      { well: 'a', tank: { volume: '-44 gal' } },
      'Cannot read card: tank.volume must be from 1 L to 10,000 gal (37,854 L): "-44 gal"',
    ],
    [
      'an absurd pressure',
      { well: 'a', switch: { cutOut: '600 psi' } },
      'Cannot read card: switch.cutOut must be from 0.5 psi (3.4 kPa) to 300 psi (2,068 kPa): "600 psi"',
    ],
    [
      'a pressure of nothing',
      { well: 'a', switch: { cutIn: '0 psi' } },
      'Cannot read card: switch.cutIn must be from 0.5 psi (3.4 kPa) to 300 psi (2,068 kPa): "0 psi"',
    ],
    [
      'an altitude above all towns',
      { well: 'a', altitude: '5200 m 3' },
      'Cannot read card: altitude must be a length in m, ft, in or mm: "5200 m 3"',
    ],
    [
      'an altitude of a mountain',
      { well: 'a', altitude: '9000 m' },
      'Cannot read card: altitude must be from -1,476 ft (-450 m) to 19,685 ft (6,000 m): "9000 m"',
    ],
    [
      'a time zone that is none',
      { well: 'a', timeZone: 'Denver' },
      'Cannot read card: timeZone must be a time zone from the IANA list (such as "America/Denver"): "Denver"',
    ],
    [
      'a fixed offset',
      { well: 'a', timeZone: '-07:00' },
      'Cannot read card: timeZone must be a time zone from the IANA list (such as "America/Denver"): "-07:00"',
    ],
    [
      'an unknown use',
      { well: 'a', use: ['house', 'pool'] },
      'Cannot read card: use must be one of house, stock, irrigation, heat-pump, or a list of them: ["house","pool"]',
    ],
    [
      'an unknown control',
      { well: 'a', control: 'magic' },
      'Cannot read card: control must be one of pressure-switch, variable-speed, constant-pressure-valve, float, timer: "magic"',
    ],
    [
      'phase as text',
      { well: 'a', pump: { phase: '1' } },
      'Cannot read card: pump.phase must be one of 1, 3: "1"',
    ],
    [
      'a date that is none',
      { well: 'a', pump: { installed: '2019-02-30' } },
      'Cannot read card: pump.installed must be a date such as "2019-05-14", "2019-05" or "2019": "2019-02-30"',
    ],
    [
      'a protector without its wait',
      { well: 'a', pump: { protector: {} } },
      'Cannot read card: pump.protector.restart must be given: nothing',
    ],
    [
      'control beside pumps',
      { well: 'a', control: 'float', pumps: { p1: {} } },
      'Cannot read card: control must not be given together with pumps: it belongs in each of them: "float"',
    ],
    ['no pump in pumps', { well: 'a', pumps: {} }, 'Cannot read card: pumps must hold at least one pump: {}'],
    [
      'a hole in pumps',
      { well: 'a', pumps: { p1: {}, p3: {} } },
      'Cannot read card: pumps.p3 must be named p1, p2 … p15 without a gap: p1, p3',
    ],
    [
      'a pump as text',
      { well: 'a', pump: '1 hp' },
      'Cannot read card: pump must be an object in braces: "1 hp"',
    ],
    [
      'a channel that is none',
      { well: 'a', reads: { amps: 'b:current' } },
      'Cannot read card: reads.amps is not a channel of a well (such as current, p2/current, pressure): "b:current"',
    ],
    [
      'a channel of a pump that the card has not',
      { well: 'a', reads: { 'p2/current': 'b:current' } },
      'Cannot read card: reads.p2/current must belong to a pump of this card, and it has 1: "b:current"',
    ],
    [
      'a source without its channel',
      { well: 'a', reads: { current: 'b' } },
      'Cannot read card: reads.current must be a node and its channel (such as "panel-a:p2/current"): "b"',
    ],
    [
      'a source of another unit',
      { well: 'a', reads: { current: 'b:pressure' } },
      'Cannot read card: reads.current must be fed by a channel with the same unit, and pressure has another: "b:pressure"',
    ],
    [
      'a since that is no time',
      { well: 'a', reads: [{ since: '2026-03-01', current: 'b:current' }] },
      'Cannot read card: reads.0.since must be a time such as "2026-03-12T10:00:00Z": "2026-03-01"',
    ],
    [
      'since in a single object',
      { well: 'a', reads: { since: '2026-03-01T00:00:00Z', current: 'b:current' } },
      'Cannot read card: reads.since is not a channel of a well (such as current, p2/current, pressure): "2026-03-01T00:00:00Z"',
    ],
  ])('%s', (_name, json, problem) => {
    expect(problemOf(json)).toBe(problem);
  });

  test.each(['colour', 'Pump', '__proto__', 'constructor', 'toString'])('the unknown key %j', (key) => {
    const json: unknown = JSON.parse(`{"well":"a",${JSON.stringify(key)}:1}`);
    expect(problemOf(json)).toMatch(`Cannot read card: ${key} is unknown; known names: well, site, timeZone`);
  });

  test('unknown keys at every depth', () => {
    expect(problemOf({ well: 'a', pump: { hp: 1 } })).toMatch('pump.hp is unknown; known names: kind, motor');
    expect(problemOf({ well: 'a', switch: { cutin: '40 psi' } })).toMatch('switch.cutin is unknown');
    expect(problemOf({ well: 'a', tank: { size: '44 gal' } })).toMatch('tank.size is unknown');
    expect(problemOf({ well: 'a', pumps: { p1: { motor: '1 hp' } } })).toMatch('pumps.p1.motor is unknown');
    expect(problemOf({ well: 'a', pump: { protector: { restart: '1 min', kind: 'x' } } })).toMatch(
      'pump.protector.kind is unknown',
    );
  });

  test('two rules of one channel that begin together', () => {
    expect(problemOf({ well: 'a', reads: [{ current: 'b:current' }, { current: 'c:current' }] })).toMatch(
      'Cannot read card: reads must give each start time for current only once: two rules start at the same time',
    );
  });

  test('a huge value, told in one short line', () => {
    const problem = problemOf({ well: 'x'.repeat(100_000) }) ?? '';
    expect(problem.length).toBeLessThan(200);
    expect(problem).not.toContain('\n');
  });
});

test('readCard takes any JSON without a throw and tells problems in one line', () => {
  const key = fc.constantFrom(
    'well',
    'pump',
    'pumps',
    'switch',
    'tank',
    'reads',
    'use',
    'timeZone',
    'altitude',
    'p1',
    'current',
  );
  const tree = fc.letrec<{ any: unknown }>((tie) => ({
    any: fc.oneof(
      { maxDepth: 4 },
      fc.constantFrom('a', '40 psi', '1 hp', 'b:current', null, 1, true),
      fc.array(tie('any'), { maxLength: 3 }),
      fc.dictionary(key, tie('any'), { maxKeys: 5 }),
    ),
  }));
  fc.assert(
    fc.property(tree.any, (json) => {
      const problem = problemOf(json);
      if (problem !== undefined) expect(problem).toMatch(/^Cannot read card: .*$/u);
    }),
    { seed: 4, numRuns: 2000 },
  );
});

const RECORDINGS = new URL('../../../../shared/recordings/', import.meta.url);
const CARDS = existsSync(RECORDINGS)
  ? readdirSync(RECORDINGS).filter((name) => /\.card.*\.json$/.test(name))
  : [];

describe.skipIf(CARDS.length === 0)(
  'cards beside the recordings (skipped where the folder of recordings is not there)',
  () => {
    test.each(CARDS)('%s reads', (name) => {
      const json: unknown = JSON.parse(readFileSync(new URL(name, RECORDINGS), 'utf8'));
      expect(problemOf(json)).toBeUndefined();
    });
  },
);
