/**
 * How people are asked for a card: its fields in the order in which they fill them in, with what
 * each is called and an example of how it is written. What may stand in a field is the table's
 * (shared/card/card-fields.ts). That each of them is here: tests/shared/card/fields.test.ts.
 */
import { DATE_EXAMPLE as DATE, type FieldWords, type SectionWords } from './card-section-words.ts';
import {
  CONTROL_BOX,
  DISTANCES,
  GETTING_IN,
  PERMIT,
  PLATE,
  STORAGE,
  TREATMENT_UNITS,
  WELL_LOG_TEST,
  WIRE,
} from './card-visit-sections.ts';
import { USE_WORDS } from './logbook/uses.ts';

export const CARD_SECTIONS: readonly SectionWords[] = [
  {
    title: 'The well',
    fields: [
      { key: 'site', label: 'Site', example: 'home-farm', hint: 'Wells of one farm or house share it.' },
      { key: 'timeZone', label: 'Time zone', example: 'America/Denver' },
      { key: 'altitude', label: 'Altitude', example: ['5,200 ft', '1,580 m'] },
      {
        key: 'use',
        label: 'Used for',
        choices: Object.entries(USE_WORDS),
      },
      { key: 'stockHeads', label: 'Head of stock', example: '120' },
      {
        key: 'continuousDraw',
        label: 'Drawn all the time',
        example: ['0.1 gpm', '0.4 L/min'],
        hint: 'What runs day and night on purpose: a trickling waterer, a cooler’s bleed, a drain. It is no leak.',
      },
      {
        key: 'airSensor',
        label: 'Air temperature sensor',
        choices: [
          ['pump-house', 'in the pump house'],
          ['outside', 'outside'],
        ],
      },
    ],
  },
  {
    title: 'Pump',
    perPump: true,
    intro:
      'As the receipt, the well log, the motor’s papers or a plate that can be read from outside has it.',
    parts: ['submersible-pump', 'jet-pump', 'motor', 'control-box'],
    fields: [
      { key: 'pump.maker', label: 'Maker' },
      { key: 'pump.model', label: 'Model' },
      {
        key: 'pump.kind',
        label: 'Kind',
        choices: [
          ['submersible', 'submersible, down the well'],
          ['jet', 'jet, above the ground'],
          ['booster', 'booster'],
          ['positive-displacement', 'positive displacement'],
        ],
      },
      { key: 'pump.motor', label: 'Motor power', example: ['3/4 hp', '0.55 kW'] },
      { key: 'pump.volts', label: 'Volts', example: '230 V' },
      {
        key: 'pump.phase',
        label: 'Phases of the motor',
        choices: [
          ['1', 'single-phase'],
          ['3', 'three-phase'],
        ],
      },
      {
        key: 'pump.supplyPhase',
        label: 'Phases of the supply, where they are others',
        choices: [
          ['1', 'single-phase'],
          ['3', 'three-phase'],
        ],
      },
      {
        key: 'pump.wires',
        label: 'Wires to the motor, ground not counted',
        choices: [
          ['2', '2 wires'],
          ['3', '3 wires'],
        ],
      },
      {
        key: 'pump.maxAmps',
        label: 'Maximum amps',
        example: '9.8 A',
        hint: 'The plate calls them service-factor amps, SFA or max amps.',
      },
      {
        key: 'pump.drive',
        label: 'Powered by',
        choices: [
          ['mains', 'utility power'],
          ['solar', 'solar panels'],
        ],
      },
      { key: 'pump.rated', label: 'Rated flow', example: ['10 gpm', '38 L/min'] },
      { key: 'pump.setDepth', label: 'Set depth', example: ['180 ft', '55 m'] },
      { key: 'pump.controlBox', label: 'Control box: maker and model' },
      { key: 'pump.installed', label: 'Installed', example: DATE },
      { key: 'pump.installer', label: 'Installed by' },
    ],
  },
  PLATE,
  {
    title: 'Control',
    perPump: true,
    parts: ['drive', 'constant-pressure-valve', 'pump-protector'],
    fields: [
      {
        key: 'control',
        label: 'What starts the pump',
        choices: [
          ['pressure-switch', 'a pressure switch'],
          ['variable-speed', 'a variable-speed drive'],
          ['constant-pressure-valve', 'a switch, with a constant-pressure valve'],
          ['float', 'a float'],
          ['timer', 'a timer'],
        ],
      },
      { key: 'pump.driveModel', label: 'Drive or valve: maker, model, setting' },
      { key: 'pump.float', label: 'Float or timer: where, and how it is set' },
      {
        key: 'pump.protector.restart',
        label: 'Pump protector starts again after',
        example: '20 min',
      },
    ],
  },
  CONTROL_BOX,
  {
    title: 'Switch and relief valve',
    parts: ['pressure-switch', 'relief-valve'],
    fields: [
      {
        key: 'switch.points',
        label: 'Pressure switch',
        example: ['40/60', '276/414 kPa'],
        hint: 'Cut-in/cut-out, as a label on its outside says or as you know it. Leave the lid closed: live parts are under it.',
      },
      { key: 'switch.cutIn', label: 'Cut-in', example: ['40 psi', '276 kPa'] },
      { key: 'switch.cutOut', label: 'Cut-out', example: ['60 psi', '414 kPa'] },
      { key: 'switch.lowCutOff', label: 'Low-pressure cut-off', example: ['20 psi', '138 kPa'] },
      { key: 'relief', label: 'Relief valve opens at', example: ['75 psi', '517 kPa'] },
    ],
  },
  {
    title: 'Tank',
    parts: ['pressure-tank'],
    fields: [
      { key: 'tank.maker', label: 'Maker' },
      { key: 'tank.model', label: 'Model' },
      {
        key: 'tank.kind',
        label: 'Kind',
        choices: [
          ['captive-air', 'captive air (bladder or diaphragm)'],
          ['plain', 'plain, air on water'],
        ],
      },
      { key: 'tank.volume', label: 'Volume', example: ['44 gal', '166 L'] },
      { key: 'tank.precharge', label: 'Precharge', example: ['38 psi', '262 kPa'] },
      {
        key: 'tank.maxPressure',
        label: 'Maximum pressure',
        example: ['100 psi', '690 kPa'],
        hint: 'The plate of the tank says it: maximum working pressure.',
      },
      {
        key: 'tank.drawOff',
        label: 'Draw-off',
        example: ['13 gal', '49 L'],
        hint: 'What it gives between cut-out and cut-in, by its maker’s table.',
      },
      { key: 'tank.installed', label: 'Installed', example: DATE },
      { key: 'tank.installer', label: 'Installed by' },
    ],
  },
  STORAGE,
  {
    title: 'The hole',
    intro: 'The driller’s well log has most of it. Depths are from the ground.',
    parts: ['well', 'drop-pipe', 'check-valve', 'pitless-adapter'],
    fields: [
      { key: 'hole.depth', label: 'Depth', example: ['320 ft', '98 m'] },
      { key: 'hole.drilled', label: 'Drilled', example: '2004-08-30, or 2004' },
      { key: 'hole.driller', label: 'Driller' },
      { key: 'hole.log', label: 'Well log number' },
      { key: 'hole.casing', label: 'Casing, diameter', example: ['6 in', '150 mm'] },
      { key: 'hole.casingDepth', label: 'Casing goes down to', example: ['60 ft', '18 m'] },
      { key: 'hole.casingMaterial', label: 'Casing, material', example: 'steel' },
      { key: 'hole.staticLevel', label: 'Static level', example: ['41 ft', '12.5 m'] },
      { key: 'hole.yield', label: 'Yield', example: ['12 gpm', '45 L/min'] },
      { key: 'hole.dropPipe', label: 'Drop pipe, diameter', example: ['1-1/4 in', '32 mm'] },
      { key: 'hole.dropPipeMaterial', label: 'Drop pipe, material', example: 'poly' },
      {
        key: 'hole.checkValves',
        label: 'Check valves, one a line',
        example: ['at the pump\n160 ft', 'at the pump\n50 m'],
      },
    ],
  },
  WELL_LOG_TEST,
  {
    title: 'Electrical',
    intro:
      'What can be read from outside, or what was written down by the licensed person who had it open and locked out. Open nothing for this.',
    parts: ['breaker', 'control-box'],
    fields: [
      { key: 'electrical.panel', label: 'Panel', example: 'basement, north wall' },
      { key: 'electrical.breaker', label: 'Breaker number', example: '14/16' },
      { key: 'electrical.breakerAmps', label: 'Breaker size', example: '20 A' },
      {
        key: 'electrical.breakerType',
        label: 'Breaker type',
        choices: [
          ['breaker', 'breaker'],
          ['gfci-breaker', 'breaker with ground-fault protection (GFCI)'],
          ['fuses', 'fuses'],
          ['time-delay-fuses', 'time-delay fuses (dual-element)'],
        ],
      },
      { key: 'electrical.disconnect', label: 'Disconnect' },
      { key: 'electrical.cable', label: 'Cable to the pump', example: '12 AWG copper, 240 ft' },
      { key: 'electrical.surgeArrester', label: 'Surge arrester', example: 'at the panel, 2021' },
      { key: 'electrical.generatorInlet', label: 'Generator inlet', example: 'north wall, 30 A' },
      {
        key: 'electrical.transferSwitch',
        label: 'Transfer switch',
        choices: [
          ['manual', 'manual'],
          ['automatic', 'automatic'],
          ['interlock', 'interlock in the panel'],
          ['none', 'none'],
        ],
        hint: 'Without a transfer switch or interlock no generator may feed this circuit.',
      },
      ...(
        [
          ['panel', 'panel'],
          ['disconnect', 'disconnect'],
          ['switch', 'switch'],
          ['controlBox', 'control box'],
          ['drive', 'drive'],
          ['wellHead', 'well head'],
        ] as const
      ).map(([place, words]): FieldWords => ({
        key: `electrical.wires.${place}`,
        label: `Wires at the ${words}, one terminal a line`,
        example: 'L1 black\nL2 red',
      })),
      { key: 'electrical.photos', label: 'Photos, by the hash of the document' },
    ],
  },
  WIRE,
  {
    title: 'Treatment',
    parts: ['treatment'],
    fields: [
      {
        key: 'treatment',
        label: 'What treats the water, one a line',
        example: 'softener, 2018',
      },
      ...TREATMENT_UNITS,
    ],
  },
  {
    title: 'Where things are',
    intro: 'So that somebody who was never here finds them.',
    fields: [
      {
        key: 'position',
        label: 'Well head, by GPS',
        example: '40.01, -105.27',
        hint: 'Decimal degrees, as a phone’s map shows them.',
      },
      ...(
        [
          ['wellHead', 'Well head', 'under the lilac'],
          ['pumpHouse', 'Pump house'],
          ['panel', 'Panel'],
          ['disconnect', 'Disconnect'],
          ['controlBox', 'Control box'],
          ['switch', 'Pressure switch'],
          ['gauge', 'Gauge'],
          ['tank', 'Tank', 'left of the furnace'],
          ['relief', 'Relief valve'],
          ['shutOff', 'Shut-off valve'],
          ['sampleTap', 'Tap for water samples'],
          ['treatment', 'Treatment'],
        ] as const
      ).map(([place, label, example]): FieldWords => ({
        key: `where.${place}`,
        label,
        ...(example !== undefined && { example }),
      })),
    ],
  },
  {
    title: 'People',
    fields: [
      { key: 'owner', label: 'Owner' },
      { key: 'address', label: 'Address' },
      { key: 'contact', label: 'Whom to ask at the house', example: 'name, telephone' },
      { key: 'firm', label: 'Whom to call for the well', example: 'firm, telephone, license' },
      ...GETTING_IN,
    ],
  },
  DISTANCES,
  PERMIT,
  {
    title: 'Watching',
    intro: 'For whoever fitted the sensors.',
    parts: ['current-clamp'],
    fields: [
      {
        key: 'pump.clamp',
        label: 'The clamp sits on',
        choices: [
          ['line', 'a line conductor'],
          ['yellow', 'the yellow lead'],
          ['black', 'the black lead'],
          ['red', 'the red lead'],
        ],
      },
      { key: 'pump.alsoOnClamp', label: 'What else this conductor feeds' },
      {
        key: 'longRun',
        label: 'Tell about a run longer than',
        example: '2 h',
        hint: 'Without it, the pump’s own habit decides.',
      },
      {
        key: 'levelLow',
        label: 'Least water over the pump',
        example: ['20 ft', '6 m'],
        hint: 'For a well with a level sensor.',
      },
      { key: 'falseAlarmsPerYear', label: 'False alarms a year that you will bear', example: '0.05' },
    ],
  },
];
