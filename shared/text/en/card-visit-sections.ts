/**
 * The parts of a card that a technician reads at a visit: the plate and the curve, what the box and
 * the protector hold, wire, storage, treatment, distances, permit, and how to get in.
 */
import { DATE_EXAMPLE, type FieldWords, type SectionWords } from './card-section-words.ts';

export const PLATE: SectionWords = {
  title: 'Plate and curve',
  perPump: true,
  intro: 'From the plate, the receipt and the data sheet. The curve puts today’s flow beside the new pump’s.',
  parts: ['submersible-pump'],
  fields: [
    { key: 'pump.serial', label: 'Serial number' },
    { key: 'pump.dateCode', label: 'Date code' },
    { key: 'pump.warrantyUntil', label: 'Warranty until', example: '2024-05-14' },
    { key: 'pump.stages', label: 'Stages', example: '11' },
    { key: 'pump.shutOffHead', label: 'Shut-off head', example: ['390 ft', '119 m'] },
    {
      key: 'pump.curve',
      label: 'Curve, one point a line',
      example: ['5 gpm at 340 ft\n10 gpm at 250 ft\n14 gpm at 140 ft', '20 L/min at 104 m\n40 L/min at 73 m'],
      hint: 'A flow and the total head there, from the data sheet of this model and motor.',
    },
  ],
};

export const CONTROL_BOX: SectionWords = {
  title: 'Control box and protection',
  perPump: true,
  intro: 'As printed on the outside of the box or written down by the licensed person who had it open.',
  parts: ['control-box', 'pump-protector'],
  fields: [
    { key: 'pump.startCapacitor', label: 'Start capacitor', example: '105 uF' },
    { key: 'pump.startCapacitorVolts', label: 'Start capacitor, volts', example: '220 V' },
    { key: 'pump.runCapacitor', label: 'Run capacitor', example: '35 uF' },
    { key: 'pump.runCapacitorVolts', label: 'Run capacitor, volts', example: '370 V' },
    { key: 'pump.overload', label: 'Overload set to', example: '9.8 A' },
    { key: 'pump.protectorModel', label: 'Pump protector: maker and model' },
    { key: 'pump.protectorTrips', label: 'Pump protector trips at', example: 'dry run 5.5 A, overload 12 A' },
  ],
};

export const STORAGE: SectionWords = {
  title: 'Storage tank',
  intro:
    'A tank or cistern that the pump fills. Levels are from its floor, read from outside. Never enter a tank.',
  fields: [
    { key: 'storage.volume', label: 'Volume', example: ['1,500 gal', '5.7 m3'] },
    { key: 'storage.onLevel', label: 'Pump starts at', example: ['4 ft', '1.2 m'] },
    { key: 'storage.offLevel', label: 'Pump stops at', example: ['7 ft', '2.1 m'] },
    { key: 'storage.lowStop', label: 'Booster stops at', example: ['1 ft', '0.3 m'] },
    { key: 'storage.overflow', label: 'Overflow and vent', example: 'to the ditch, screened' },
  ],
};

export const WELL_LOG_TEST: SectionWords = {
  title: 'Yield test of the well log',
  intro: 'Later tests are entered on the yield test page.',
  fields: [
    { key: 'hole.testDate', label: 'Date', example: DATE_EXAMPLE },
    { key: 'hole.testFlow', label: 'Test flow', example: ['12 gpm', '45 L/min'] },
    { key: 'hole.testDrawdown', label: 'Drawdown', example: ['85 ft', '26 m'] },
    { key: 'hole.testTime', label: 'Pumped for', example: '4 h' },
    { key: 'hole.testRecovery', label: 'Recovered in', example: '90 min' },
  ],
};

const MATERIALS = [
  ['copper', 'copper'],
  ['aluminum', 'aluminum'],
] as const;

export const WIRE: SectionWords = {
  title: 'Wire to the motor',
  perPump: true,
  intro:
    'Size and length give the volt drop, and what the wire adds to the ohms read at the box. Whether a wire suits its circuit is for an electrician to say.',
  fields: [
    { key: 'pump.wire.buriedSize', label: 'Buried wire, size', example: ['10 AWG', '6 mm2'] },
    { key: 'pump.wire.buriedMaterial', label: 'Buried wire, material', choices: MATERIALS },
    { key: 'pump.wire.buriedLength', label: 'Buried wire, length', example: ['120 ft', '37 m'] },
    { key: 'pump.wire.dropSize', label: 'Drop cable, size', example: ['12 AWG', '4 mm2'] },
    { key: 'pump.wire.dropMaterial', label: 'Drop cable, material', choices: MATERIALS },
    { key: 'pump.wire.dropLength', label: 'Drop cable, length', example: ['190 ft', '58 m'] },
    { key: 'pump.wire.splice', label: 'Splice', example: 'heat shrink, 2019' },
  ],
};

type Detail = 'size' | 'media' | 'installed' | 'nextChange' | 'regeneration' | 'lampLife' | 'bypass';

const DETAILS: Record<Detail, Omit<FieldWords, 'key'>> = {
  size: { label: 'size' },
  media: { label: 'media' },
  installed: { label: 'installed', example: DATE_EXAMPLE },
  nextChange: { label: 'next change', example: '2027-04-01' },
  regeneration: { label: 'regeneration', example: 'every 6 days at 02:00' },
  lampLife: { label: 'lamp lasts', example: '9,000 h' },
  bypass: {
    label: 'by-pass',
    choices: [
      ['in-service', 'water runs through it'],
      ['bypassed', 'by-passed'],
    ],
  },
};

function unit(key: string, title: string, details: readonly Detail[]): FieldWords[] {
  return details.map((detail) => ({
    ...DETAILS[detail],
    key: `treatmentUnits.${key}.${detail}`,
    label: `${title}, ${DETAILS[detail].label}`,
  }));
}

export const TREATMENT_UNITS: readonly FieldWords[] = [
  ...unit('sedimentFilter', 'Sediment filter', ['size', 'installed', 'nextChange', 'bypass']),
  ...unit('carbonFilter', 'Carbon filter', ['size', 'installed', 'nextChange', 'bypass']),
  ...unit('softener', 'Softener', ['size', 'media', 'installed', 'regeneration', 'bypass']),
  ...unit('ironFilter', 'Iron filter', ['size', 'media', 'installed', 'regeneration', 'bypass']),
  ...unit('uvLamp', 'UV lamp', ['size', 'installed', 'lampLife', 'nextChange', 'bypass']),
  ...unit('reverseOsmosis', 'Reverse osmosis', ['size', 'installed', 'nextChange']),
];

export const GETTING_IN: readonly FieldWords[] = [
  { key: 'gate', label: 'Gate and code', example: 'east gate, 4821' },
  { key: 'key', label: 'Key', example: 'with the neighbor to the north' },
  { key: 'dog', label: 'Dog' },
];

export const DISTANCES: SectionWords = {
  title: 'Distances from the well head',
  fields: [
    { key: 'distances.septicTank', label: 'Septic tank', example: ['110 ft', '34 m'] },
    { key: 'distances.drainField', label: 'Drain field', example: ['150 ft', '46 m'] },
    { key: 'distances.fuel', label: 'Fuel tank', example: ['200 ft', '61 m'] },
    { key: 'distances.pens', label: 'Pens and manure', example: ['250 ft', '76 m'] },
  ],
};

export const PERMIT: SectionWords = {
  title: 'Permit and water right',
  fields: [
    { key: 'permit.number', label: 'Permit or registration number' },
    { key: 'permit.waterRight', label: 'Water right' },
    { key: 'permit.allowed', label: 'Allowed volume a year', example: ['3 acre-ft', '3,700 m3'] },
    { key: 'permit.meter', label: 'Serial number of the water meter' },
  ],
};
