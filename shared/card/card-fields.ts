/**
 * The one table of what a card holds: each key with its kind and its limits (why: ./limits.ts). How
 * people are asked for it, in which order and in which words, stands in ./card-sections.ts; rules
 * between keys in src/core/domain/read-card.ts. A field that is here and there is read, shown,
 * compared, exported and described to others by that alone.
 */
import {
  choice,
  choices,
  date,
  documents,
  integer,
  lines,
  name,
  number,
  quantity,
  required,
  switchPoints,
  text,
  timeZone,
  type Field,
  type Fields,
} from '../schema/field.ts';
import {
  AIR_PRESSURE,
  ALTITUDE,
  BREAKER_AMPS,
  FALSE_ALARMS,
  HOLE_DEPTH,
  LONG_RUN,
  MAX_CHECK_VALVES,
  MAX_LINE_CHARACTERS,
  MAX_PHOTOS,
  MAX_TEXT_CHARACTERS,
  MAX_TREATMENTS,
  MAX_WIRE_CHARACTERS,
  MAX_WIRES,
  MOTOR_AMPS,
  MOTOR_POWER,
  MOTOR_VOLTS,
  PIPE_SIZE,
  PROTECTOR_RESTART,
  PUMP_FLOW,
  SET_DEPTH,
  STATIC_LEVEL,
  STOCK_HEADS,
  SWITCH_PRESSURE,
  TANK_VOLUME,
  WATER_OVER_PUMP,
} from './limits.ts';

const shortText = text(MAX_TEXT_CHARACTERS);
const line = text(MAX_LINE_CHARACTERS);
const terminals = lines({ maxItems: MAX_WIRES, maxCharacters: MAX_WIRE_CHARACTERS });

/** What stands on the card itself. */
export const CARD = {
  well: required(name),
  site: shortText,
  timeZone,
  altitude: quantity('length', ALTITUDE, 'altitudeM'),
  use: choices('house', 'stock', 'irrigation', 'heat-pump'),
  /** How many animals drink here. */
  stockHeads: integer(STOCK_HEADS),
  relief: quantity('pressure', SWITCH_PRESSURE, 'reliefKpa'),
  /**
   * Where the sensor of the air temperature hangs: outdoor frost is no danger to the pump house.
   */
  airSensor: choice('pump-house', 'outside'),
  /** A run of this length is told at once, whatever was learnt. */
  longRun: quantity('duration', LONG_RUN, 'longRunS'),
  /** The least water over the pump that people will bear. */
  levelLow: quantity('length', WATER_OVER_PUMP, 'levelLowM'),
  /**
   * How many false alarms a year, by chance, people will bear from this whole well; the usual where
   * not given.
   */
  falseAlarmsPerYear: number(FALSE_ALARMS),
} as const satisfies Fields;

/**
 * Stands beside `pump`, for each of several pumps too. A pressure switch where the card does not
 * say.
 */
export const CONTROL = {
  control: choice('pressure-switch', 'variable-speed', 'constant-pressure-valve', 'float', 'timer'),
} as const satisfies Fields;

export const PUMP = {
  kind: choice('submersible', 'jet', 'booster', 'positive-displacement'),
  motor: quantity('power', MOTOR_POWER, 'motorW'),
  volts: quantity('voltage', MOTOR_VOLTS, 'volts'),
  phase: choice(1, 3),
  supplyPhase: choice(1, 3),
  wires: choice(2, 3),
  /** The motor's service-factor amps. */
  maxAmps: quantity('current', MOTOR_AMPS, 'maxAmps'),
  rated: quantity('flow', PUMP_FLOW, 'ratedLPerS'),
  setDepth: quantity('length', SET_DEPTH, 'setDepthM'),
  installed: date,
  clamp: choice('line', 'yellow', 'black', 'red'),
  alsoOnClamp: shortText,
  /** What feeds it. */
  drive: choice('solar', 'mains'),
} as const satisfies Fields;

/** A pump protector starts the pump again by itself, after this long. */
export const PROTECTOR = {
  restart: required(quantity('duration', PROTECTOR_RESTART, 'protectorRestartS')),
} as const satisfies Fields;

export const SWITCH = {
  points: switchPoints(SWITCH_PRESSURE),
  cutIn: quantity('pressure', SWITCH_PRESSURE, 'cutInKpa'),
  cutOut: quantity('pressure', SWITCH_PRESSURE, 'cutOutKpa'),
  lowCutOff: quantity('pressure', SWITCH_PRESSURE, 'lowCutOffKpa'),
} as const satisfies Fields;

export const TANK = {
  kind: choice('captive-air', 'plain'),
  volume: quantity('volume', TANK_VOLUME, 'volumeL'),
  precharge: quantity('pressure', AIR_PRESSURE, 'prechargeKpa'),
  /** The most that its plate allows. */
  maxPressure: quantity('pressure', SWITCH_PRESSURE, 'maxPressureKpa'),
} as const satisfies Fields;

// From here on: what no reading can tell and no watch judges by. It is kept apart
// (src/core/domain/description.ts), so that a change of it can't touch what was learnt.

export const CARD_NOTES = {
  treatment: lines({ maxItems: MAX_TREATMENTS, maxCharacters: MAX_LINE_CHARACTERS }),
  owner: line,
  address: line,
  /** Whom to call of the house: name, telephone. */
  contact: line,
  /** Whom to call for the well: firm, telephone, license. */
  firm: line,
} as const satisfies Fields;

export const PUMP_NOTES = {
  maker: shortText,
  model: shortText,
  controlBox: shortText,
  installer: shortText,
  /** A variable-speed drive or constant-pressure valve: its maker, model and setting. */
  driveModel: line,
  /** Where the float hangs, or what the timer is set to. */
  float: line,
} as const satisfies Fields;

export const TANK_NOTES = {
  maker: shortText,
  model: shortText,
  installer: shortText,
  installed: date,
} as const satisfies Fields;

/** Depths are measured from the ground. */
export const HOLE = {
  depth: quantity('length', HOLE_DEPTH, 'depthM'),
  drilled: date,
  /** Nominal diameter. */
  casing: quantity('length', PIPE_SIZE, 'casingDiameterM'),
  /** How deep the casing goes. */
  casingDepth: quantity('length', HOLE_DEPTH, 'casingDepthM'),
  casingMaterial: shortText,
  /** From the ground down to standing water; negative where the well flows by itself. */
  staticLevel: quantity('length', STATIC_LEVEL, 'staticLevelM'),
  /** Nominal diameter. */
  dropPipe: quantity('length', PIPE_SIZE, 'dropPipeDiameterM'),
  dropPipeMaterial: shortText,
  /**
   * Each a depth, or where it sits in words: many are built into the pump, and nobody measured
   * those.
   */
  checkValves: lines({ maxItems: MAX_CHECK_VALVES, maxCharacters: MAX_TEXT_CHARACTERS }),
  yield: quantity('flow', PUMP_FLOW, 'yieldLPerS'),
  driller: shortText,
  /** Number of the well log with the authority that keeps it. */
  log: { ...shortText, as: 'logNumber' },
} as const satisfies Fields;

/**
 * The pump's circuit, written down by whoever had the box open. Nothing of it asks anybody to open
 * a box.
 */
export const ELECTRICAL = {
  /** Which panel. */
  panel: line,
  /** The breaker's number or numbers in the panel. */
  breaker: shortText,
  breakerAmps: quantity('current', BREAKER_AMPS, 'breakerA'),
  disconnect: line,
  /** Size, material and length of the cable to the pump. */
  cable: line,
  photos: documents(MAX_PHOTOS),
} as const satisfies Fields;

/** Where the order of wires is written down, one line a terminal: `L1 black`. */
export const WIRES = {
  panel: terminals,
  disconnect: terminals,
  switch: terminals,
  controlBox: terminals,
  drive: terminals,
  wellHead: terminals,
} as const satisfies Fields;

/** Things that somebody looks for in a strange house, in the order of the water. */
export const WHERE = {
  wellHead: line,
  pumpHouse: line,
  panel: line,
  disconnect: line,
  controlBox: line,
  switch: line,
  gauge: line,
  tank: line,
  relief: line,
  shutOff: line,
  sampleTap: line,
  treatment: line,
} as const satisfies Fields;

/**
 * Every field of a card with one pump by the object that it stands in, dotted; '' is the card
 * itself.
 */
export const CARD_OBJECTS: Readonly<Record<string, Fields>> = {
  '': { ...CARD, ...CONTROL, ...CARD_NOTES },
  pump: { ...PUMP, ...PUMP_NOTES },
  'pump.protector': PROTECTOR,
  switch: SWITCH,
  tank: { ...TANK, ...TANK_NOTES },
  hole: HOLE,
  electrical: ELECTRICAL,
  'electrical.wires': WIRES,
  where: WHERE,
};

const BY_KEY: ReadonlyMap<string, Field> = new Map(
  Object.entries(CARD_OBJECTS).flatMap(([at, fields]) =>
    Object.entries(fields).map(([key, field]) => [at === '' ? key : `${at}.${key}`, field] as const),
  ),
);

/**
 * What a card of one pump holds under a dotted key, as `pump.motor`; undefined where no card has
 * such a key.
 */
export function cardField(key: string): Field | undefined {
  return BY_KEY.get(key);
}

/** All dotted keys of a card with one pump but `reads`. */
export const CARD_KEYS: readonly string[] = [...BY_KEY.keys()];

/** The objects that lie directly in one of the card's objects. */
export function objectsIn(at: string): string[] {
  const prefix = at === '' ? '' : `${at}.`;
  return Object.keys(CARD_OBJECTS)
    .filter((path) => path !== '' && path.startsWith(prefix))
    .map((path) => path.slice(prefix.length))
    .filter((key) => !key.includes('.'));
}

/** The keys of one of the card's objects. */
export function keysIn(at: string): string[] {
  const special = at === '' ? ['pumps', 'reads'] : [];
  return [...Object.keys(CARD_OBJECTS[at] ?? {}), ...objectsIn(at), ...special];
}
