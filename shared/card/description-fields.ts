/**
 * The other half of the card's table (./card-fields.ts): what no reading can tell and no watch
 * judges by. It is kept apart (src/core/domain/description.ts), so that a change of it can't touch
 * what was learnt.
 */
import {
  choice,
  curve,
  date,
  documents,
  integer,
  lines,
  position,
  quantity,
  text,
  wireSize,
  type Fields,
} from '../schema/field.ts';
import {
  ALLOWED_VOLUME,
  BREAKER_AMPS,
  CAPACITANCE,
  DISTANCE,
  DRAWDOWN,
  HOLE_DEPTH,
  LAMP_LIFE,
  MAX_CHECK_VALVES,
  MAX_LINE_CHARACTERS,
  MAX_PHOTOS,
  MAX_TEXT_CHARACTERS,
  MAX_TREATMENTS,
  MAX_WIRE_CHARACTERS,
  MAX_WIRES,
  MOTOR_AMPS,
  MOTOR_VOLTS,
  PIPE_SIZE,
  PUMP_FLOW,
  PUMP_HEAD,
  STAGES,
  STATIC_LEVEL,
  STORAGE_LEVEL,
  STORAGE_VOLUME,
  TANK_VOLUME,
  TEST_TIME,
  WIRE_LENGTH,
} from './limits.ts';

const shortText = text(MAX_TEXT_CHARACTERS);
const line = text(MAX_LINE_CHARACTERS);
const terminals = lines({ maxItems: MAX_WIRES, maxCharacters: MAX_WIRE_CHARACTERS });

export const CARD_NOTES = {
  treatment: lines({ maxItems: MAX_TREATMENTS, maxCharacters: MAX_LINE_CHARACTERS }),
  owner: line,
  address: line,
  /** Whom to call of the house: name, telephone. */
  contact: line,
  /** Whom to call for the well: firm, telephone, license. */
  firm: line,
  /** Of the well head, in decimal degrees. */
  position,
  /** How to get in: the gate and its code. */
  gate: line,
  /** Where the key is, or who has it. */
  key: line,
  dog: line,
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
  serial: shortText,
  /** The maker's code for when it was made. */
  dateCode: shortText,
  warrantyUntil: date,
  stages: integer(STAGES),
  /** The head at which nothing flows any more. */
  shutOffHead: quantity('length', PUMP_HEAD, 'shutOffHeadM'),
  /** The maker's curve, a point a line. */
  curve,
  startCapacitor: quantity('capacitance', CAPACITANCE, 'startCapacitorUf'),
  startCapacitorVolts: quantity('voltage', MOTOR_VOLTS, 'startCapacitorV'),
  runCapacitor: quantity('capacitance', CAPACITANCE, 'runCapacitorUf'),
  runCapacitorVolts: quantity('voltage', MOTOR_VOLTS, 'runCapacitorV'),
  /** What the overload in the box or starter is set to. */
  overload: quantity('current', MOTOR_AMPS, 'overloadA'),
  protectorModel: shortText,
  /** What it trips at: dry run, overload, volts. */
  protectorTrips: line,
} as const satisfies Fields;

const wireMaterial = choice('copper', 'aluminum');

/** From the box above ground to the motor: buried to the well head, then down the well. */
export const WIRE = {
  buriedSize: wireSize('buriedMm2'),
  buriedMaterial: wireMaterial,
  buriedLength: quantity('length', WIRE_LENGTH, 'buriedLengthM'),
  dropSize: wireSize('dropMm2'),
  dropMaterial: wireMaterial,
  dropLength: quantity('length', WIRE_LENGTH, 'dropLengthM'),
  splice: shortText,
} as const satisfies Fields;

export const TANK_NOTES = {
  maker: shortText,
  model: shortText,
  installer: shortText,
  installed: date,
  /** What it gives from cut-out down to cut-in, by its maker's table. */
  drawOff: quantity('volume', TANK_VOLUME, 'drawOffL'),
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
  /** The yield test of the well log: pumped at this flow for this long, the water fell so far. */
  testDate: date,
  testFlow: quantity('flow', PUMP_FLOW, 'testFlowLPerS'),
  testDrawdown: quantity('length', DRAWDOWN, 'testDrawdownM'),
  testTime: quantity('duration', TEST_TIME, 'testTimeS'),
  /** How long it took to come back. */
  testRecovery: quantity('duration', TEST_TIME, 'testRecoveryS'),
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
  breakerType: choice('breaker', 'gfci-breaker', 'fuses', 'time-delay-fuses'),
  surgeArrester: line,
  generatorInlet: line,
  transferSwitch: choice('manual', 'automatic', 'interlock', 'none'),
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

/** A tank or cistern that the pump fills, by float or level; levels from its floor. */
export const STORAGE = {
  volume: quantity('volume', STORAGE_VOLUME, 'volumeL'),
  onLevel: quantity('length', STORAGE_LEVEL, 'onLevelM'),
  offLevel: quantity('length', STORAGE_LEVEL, 'offLevelM'),
  /** Under it the booster is stopped. */
  lowStop: quantity('length', STORAGE_LEVEL, 'lowStopM'),
  overflow: line,
} as const satisfies Fields;

/** How far what can spoil the water lies from the well head. */
export const DISTANCES = {
  septicTank: quantity('length', DISTANCE, 'septicTankM'),
  drainField: quantity('length', DISTANCE, 'drainFieldM'),
  fuel: quantity('length', DISTANCE, 'fuelM'),
  pens: quantity('length', DISTANCE, 'pensM'),
} as const satisfies Fields;

export const PERMIT = {
  number: shortText,
  waterRight: shortText,
  /** What may be pumped in a calendar year. */
  allowed: quantity('volume', ALLOWED_VOLUME, 'allowedL'),
  /** The serial number of the water meter. */
  meter: shortText,
} as const satisfies Fields;

const bypass = choice('in-service', 'bypassed');

/** The treatment units that have something to change or to set; others stand under `treatment`. */
export const TREATMENT_UNITS = {
  sedimentFilter: { size: shortText, installed: date, nextChange: date, bypass },
  carbonFilter: { size: shortText, installed: date, nextChange: date, bypass },
  softener: { size: shortText, media: shortText, installed: date, regeneration: line, bypass },
  ironFilter: { size: shortText, media: shortText, installed: date, regeneration: line, bypass },
  uvLamp: {
    size: shortText,
    installed: date,
    /** How many hours a lamp serves, by its maker. */
    lampLife: quantity('duration', LAMP_LIFE, 'lampLifeS'),
    nextChange: date,
    bypass,
  },
  reverseOsmosis: { size: shortText, installed: date, nextChange: date },
} as const satisfies Record<string, Fields>;

/** By the object that they stand in, as CARD_OBJECTS. */
export const DESCRIPTION_OBJECTS = {
  '': CARD_NOTES,
  pump: PUMP_NOTES,
  'pump.wire': WIRE,
  tank: TANK_NOTES,
  storage: STORAGE,
  hole: HOLE,
  electrical: ELECTRICAL,
  'electrical.wires': WIRES,
  treatmentUnits: {},
  'treatmentUnits.sedimentFilter': TREATMENT_UNITS.sedimentFilter,
  'treatmentUnits.carbonFilter': TREATMENT_UNITS.carbonFilter,
  'treatmentUnits.softener': TREATMENT_UNITS.softener,
  'treatmentUnits.ironFilter': TREATMENT_UNITS.ironFilter,
  'treatmentUnits.uvLamp': TREATMENT_UNITS.uvLamp,
  'treatmentUnits.reverseOsmosis': TREATMENT_UNITS.reverseOsmosis,
  where: WHERE,
  distances: DISTANCES,
  permit: PERMIT,
} as const satisfies Record<string, Fields>;
