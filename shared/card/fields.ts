/**
 * Every field of a card in the order in which people fill it in, with what it is called and an example of how it is written. The form,
 * the history, the command line and the columns of a table go by it. That it holds every key that the reader knows: tests/core/domain/fields.test.ts.
 */
import type { Part } from '../text/en/parts/part-words.ts';
import { withoutPumpPrefix } from './flat-card.ts';

export interface Field {
  /** Dotted; a pump's as if there were one pump. */
  key: string;
  label: string;
  /** As it is written, in US and in metric units. */
  example?: string | readonly [us: string, metric: string];
  /** What may stand there, with its words; the first may be left unsaid. */
  choices?: readonly (readonly [value: string, words: string])[];
  /** Several of the choices together. */
  multiple?: true;
  /** Several lines. */
  multiline?: true;
  /** A line under the field. */
  hint?: string;
}

export interface Section {
  title: string;
  /** Its fields are there for each pump. */
  perPump?: true;
  intro?: string;
  /** Parts of which more is said (shared/text/en/parts/parts.ts). */
  parts?: readonly Part[];
  fields: readonly Field[];
}

const DATE = '2019-05-14, or 2019';

export const SECTIONS: readonly Section[] = [
  {
    title: 'The well',
    fields: [
      { key: 'site', label: 'Site', example: 'home-farm', hint: 'Wells of one farm or house share it.' },
      { key: 'timeZone', label: 'Time zone', example: 'America/Denver' },
      { key: 'altitude', label: 'Altitude', example: ['5,200 ft', '1,580 m'] },
      {
        key: 'use',
        label: 'Used for',
        choices: [
          ['house', 'house'],
          ['stock', 'stock'],
          ['irrigation', 'irrigation'],
        ],
        multiple: true,
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
        label: 'Wires to the motor, earth not counted',
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
      { key: 'pump.rated', label: 'Rated flow', example: ['10 gpm', '38 L/min'] },
      { key: 'pump.setDepth', label: 'Set depth', example: ['180 ft', '55 m'] },
      { key: 'pump.controlBox', label: 'Control box: maker and model' },
      { key: 'pump.installed', label: 'Installed', example: DATE },
      { key: 'pump.installer', label: 'Installed by' },
    ],
  },
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
      { key: 'pump.drive', label: 'Drive or valve: maker, model, setting' },
      { key: 'pump.float', label: 'Float or timer: where, and how it is set' },
      {
        key: 'pump.protector.restart',
        label: 'Pump protector starts again after',
        example: '20 min',
      },
    ],
  },
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
      { key: 'tank.installed', label: 'Installed', example: DATE },
      { key: 'tank.installer', label: 'Installed by' },
    ],
  },
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
        multiline: true,
      },
    ],
  },
  {
    title: 'Electrical',
    intro:
      'What can be read from outside, or what was written down by the licensed person who had it open and locked out. Open nothing for this.',
    parts: ['breaker', 'control-box'],
    fields: [
      { key: 'electrical.panel', label: 'Panel', example: 'basement, north wall' },
      { key: 'electrical.breaker', label: 'Breaker number', example: '14/16' },
      { key: 'electrical.breakerAmps', label: 'Breaker size', example: '20 A' },
      { key: 'electrical.disconnect', label: 'Disconnect' },
      { key: 'electrical.cable', label: 'Cable to the pump', example: '12 AWG copper, 240 ft' },
      ...(
        [
          ['panel', 'panel'],
          ['disconnect', 'disconnect'],
          ['switch', 'switch'],
          ['controlBox', 'control box'],
          ['drive', 'drive'],
          ['wellHead', 'well head'],
        ] as const
      ).map(([place, words]): Field => ({
        key: `electrical.wires.${place}`,
        label: `Wires at the ${words}, one terminal a line`,
        example: 'L1 black\nL2 red',
        multiline: true,
      })),
      { key: 'electrical.photos', label: 'Photos, by the hash of the paper', multiline: true },
    ],
  },
  {
    title: 'Treatment',
    parts: ['treatment'],
    fields: [
      {
        key: 'treatment',
        label: 'What treats the water, one a line',
        example: 'softener, 2018',
        multiline: true,
      },
    ],
  },
  {
    title: 'Where things are',
    intro: 'So that somebody who was never here finds them.',
    fields: (
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
    ).map(([place, label, example]): Field => ({
      key: `where.${place}`,
      label,
      ...(example !== undefined && { example }),
    })),
  },
  {
    title: 'People',
    fields: [
      { key: 'owner', label: 'Owner' },
      { key: 'address', label: 'Address' },
      { key: 'contact', label: 'Whom to ask at the house', example: 'name, telephone' },
      { key: 'firm', label: 'Whom to call for the well', example: 'firm, telephone, licence' },
    ],
  },
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
      { key: 'falseAlarmsPerYear', label: 'False alarms a year that you will bear', example: '0.05' },
    ],
  },
];

const ALL_FIELDS: readonly Field[] = SECTIONS.flatMap(({ fields }) => fields);
const BY_KEY = new Map(ALL_FIELDS.map((field) => [field.key, field]));
const PUMP_FIELD = /^(control$|pump\.)/;

/** The field of a key, whichever pump it is of; undefined for `well`, `reads` and what no card has. */
export function fieldOf(key: string): Field | undefined {
  return BY_KEY.get(withoutPumpPrefix(key));
}

/** A field's key for one of several pumps, or for the only one. */
export function keyFor(field: Field, pump: string | undefined): string {
  return pump === undefined || !PUMP_FIELD.test(field.key) ? field.key : `pumps.${pump}.${field.key}`;
}

/** Whether a card may hold such a key at all. */
export function isCardKey(key: string): boolean {
  if (key === 'well' || key === 'reads' || /^reads\.[a-z0-9/-]+$/.test(key)) return true;
  const field = fieldOf(key);
  return field !== undefined && (field.key === key || PUMP_FIELD.test(field.key));
}

/** "Pump 2: motor power": what a key is called on its own, out of its section. */
export function fieldLabel(key: string): string {
  const section = SECTIONS.find(({ fields }) => fields.some((field) => field.key === withoutPumpPrefix(key)));
  const pump = /^pumps\.p(\d+)\./.exec(key)?.[1];
  if (!section) return key.startsWith('reads') ? `Readings: ${key.slice(6) || 'all'}` : key;
  const title = pump === undefined ? section.title : `${section.title} ${pump}`;
  const field = fieldOf(key);
  const label = field ? fieldName(field) : key;
  return `${title}: ${label.charAt(0).toLowerCase()}${label.slice(1)}`;
}

/** What a field is called where nobody is typing into it. */
export function fieldName({ label }: Field): string {
  return label.replace(/, one .*line$/, '');
}

/** The place of a key among all, for lists in the form's order; what the form has not comes last. */
export function fieldOrder(key: string): number {
  const at = ALL_FIELDS.findIndex((field) => field.key === withoutPumpPrefix(key));
  return at < 0 ? ALL_FIELDS.length : at;
}
