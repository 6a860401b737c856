/**
 * The table of what a card holds: each key with its kind and its limits (why: ./limits.ts). What no
 * watch judges by is the other half of it (./description-fields.ts). How people are asked, in which
 * order and in which words, stands in shared/text/en/card-sections.ts; rules between keys in
 * src/core/domain/read-card.ts. A field that is here and there is read, shown, compared, exported
 * and described to others by that alone.
 */
import {
  choice,
  choices,
  date,
  integer,
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
  CONTINUOUS_DRAW,
  FALSE_ALARMS,
  LONG_RUN,
  MAX_TEXT_CHARACTERS,
  MOTOR_AMPS,
  MOTOR_POWER,
  MOTOR_VOLTS,
  PROTECTOR_RESTART,
  PUMP_FLOW,
  SET_DEPTH,
  STOCK_HEADS,
  SWITCH_PRESSURE,
  TANK_VOLUME,
  WATER_OVER_PUMP,
} from './limits.ts';
import { DESCRIPTION_OBJECTS } from './description-fields.ts';

const shortText = text(MAX_TEXT_CHARACTERS);

/** What stands on the card itself. */
export const CARD = {
  well: required(name),
  site: shortText,
  timeZone,
  altitude: quantity('length', ALTITUDE, 'altitudeM'),
  use: choices('house', 'stock', 'irrigation', 'heat-pump'),
  /** How many animals drink here. */
  stockHeads: integer(STOCK_HEADS),
  /** What is drawn day and night: a trickling waterer, a cooler's bleed, a drain. */
  continuousDraw: quantity('flow', CONTINUOUS_DRAW, 'continuousDrawLPerS'),
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

/**
 * Every field of a card with one pump by the object that it stands in, dotted; '' is the card
 * itself.
 */
export const CARD_OBJECTS: Readonly<Record<string, Fields>> = {
  ...DESCRIPTION_OBJECTS,
  '': { ...CARD, ...CONTROL, ...DESCRIPTION_OBJECTS[''] },
  pump: { ...PUMP, ...DESCRIPTION_OBJECTS.pump },
  'pump.protector': PROTECTOR,
  switch: SWITCH,
  tank: { ...TANK, ...DESCRIPTION_OBJECTS.tank },
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
