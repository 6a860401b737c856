/** Texts of the page of a well’s readings. */
import { formatCount } from '../format.ts';

interface ClampDifference {
  clamp: string;
  meter: string;
  allowed: string;
  by: string;
  isMore: boolean;
}

interface DrawResult {
  precharge: string;
  tank: string | undefined;
  /** Of the air volume. */
  error: string | undefined;
  ranEmpty: boolean;
  atSeaLevel: boolean;
}

export const readingsTexts = {
  clampOf: (channel: string, node: string) => `Clamp ${channel} of ${node}`,
  clampAgrees: (name: string) => `${name}: agrees with the meter; no calibration needed.`,
  canCalibrate: (name: string) => `${name} can be calibrated`,
  readAtRest: (rest: string, running: string, meter: string) =>
    `The clamp read ${rest} with the pump off and ${running} with it running; the meter read ${meter}.`,
  readTwoLoads: (low: string, high: string, meterLow: string, meterHigh: string) =>
    `The clamp read ${low} and ${high}; the meter read ${meterLow} and ${meterHigh}.`,
  calibrationEffect: 'New readings are corrected with both points. Earlier readings stay as they are.',
  calibrate: 'Calibrate with these two points',
  metersReading: (rule: string) => `The meter’s reading ${rule}.`,
  checkClamp: 'Check the clamp with a clamp meter',
  checkClampHelp: (electrician: string, caution: string) =>
    `For an electrician, or a person qualified to put a meter on an insulated conductor without opening anything that is closed. Read the meter while the pump runs, enter the value and compare at once. ${electrician} ${caution}`,
  meterReads: 'Meter reading',
  ampsExample: '7.9 A',
  compare: 'Compare',
  saveMeterReading: 'Save the meter reading',
  saved: 'Saved.',
  clampMeter: 'clamp meter',
  whichMeter: 'Meter used',
  switchThePumpOff:
    'Switch the pump off at its breaker or disconnect, so that it can’t start during the test. Draw no other water.',
  drawWait: 'Wait a few minutes until the gauge is steady. Note the pressure.',
  drawWater:
    'Draw a measured amount into buckets: 5 gal (20 L) or more. If the flow stops and the pressure drops sharply first, check the box below.',
  drawWaitAgain: 'Wait until the gauge is steady again. Note the pressure. Then switch the pump on.',
  calculatePrecharge: 'Calculate precharge',
  waterDrawn: 'Water drawn',
  pressureBefore: 'Pressure before',
  pressureAfter: 'Pressure after',
  fellAway: 'The flow stopped and the pressure dropped sharply',
  savePrecharge: 'Save as the precharge',
  measuredDraw: 'measured draw',
  bucketVolume: 'Volume in the bucket, if measured',
  bucketTime: 'Time to fill it',
  timeExample: '48 s',
  flowIs: (flow: string) => `Flow: ${flow}.`,
  guideIntro:
    'Open a tap, wait for the pump, close the tap and leave all taps closed until the pump stops. The sensors give running amps, cut-in, cut-out and fill time of this run. Take these readings while the well is in good order: later readings are compared with them.',
  pump: 'Pump',
  start: 'Start',
  waitingForPump: 'Checking the pump …',
  closeGuide: 'Close the guide',
  stopGuide: 'Stop the guide',
  cannotFollow: 'Cannot follow the run. Try again.',
  atTank: (pressure: string) => `${pressure} at the tank`,
  onClamp: (amps: string) => `${amps} on the clamp`,
  savedBelow: 'Saved. The reading is in the list below.',
  saveReadings: 'Save readings',
  runResults: 'Results of this run',
  fillCondition: '(only if all taps were closed while the pump ran)',
  coarse: 'The readings are more than 3 s apart: both pressures are interpolated.',
  pinAll: 'Pin these: the well is in good order now, and later readings are compared with them',
  titleOfLine: (title: string, line: number) => `${title}, line ${line}`,
  nothingChosen: 'Choose at least one reading to save.',
  line: (line: number) => `line ${line}`,
  save: 'Save',
  value: 'Value with unit',
  pin: 'Pin: later readings are compared with this one',
  photos: 'Photos',
  what: 'Reading',
  wholeWell: 'the whole well',
  date: 'Date (empty: now)',
  location: 'Location',
  which: 'Which one',
  leads: 'Leads',
  motor: 'Motor',
  notSaid: 'not entered',
  instrument: 'Instrument',
  remark: 'Note',
  none: 'No readings yet.',
  voidOne: 'Void a reading',
  pumpName: (pump: string) => `pump ${pump}`,
  same: 'the same',
  day: 'Day',
  readValue: 'Value',
  comparedWithPinned: 'Compared with pinned value',
  byAndWith: 'By, instrument',
  pinned: ', pinned',
  fromSensors: 'from the sensors',
  overTime: (title: string) => `${title} over time; values in the table`,
  now: (value: string) => `now ${value}`,
  void: 'Void',
  whichReading: 'Reading',
  reason: 'Reason',
  thisWell: 'this well',
  overTheYears: 'Readings over time',
  subject: 'the readings',
  guided: 'Guided reference readings',
  ownReading: 'Enter a reading: level, precharge, flow',
  drawTest: 'Tank precharge from a measured draw',
  qualified: 'Readings by a qualified person: windings, insulation, capacitor, voltage',
  boxPhotoCaution:
    'Photograph the inside of a box only if you already have it open and locked out. Leave a closed box closed.',
  missingPoint: {
    'no-pair': 'No meter reading since the last calibration of this clamp.',
    'one-load':
      'Only one load was compared. For the second point, compare at a load that differs by at least 20 %, or with the pump off and the clamp reading zero.',
    'does-not-rise': 'Clamp and meter contradict each other. Compare again.',
  },
  agrees: ({ clamp, meter, allowed }: { clamp: string; meter: string; allowed: string }) =>
    `Clamp ${clamp}, meter ${meter}: they agree within the ${allowed} tolerance of two such instruments.`,
  differs: ({ clamp, meter, allowed, by, isMore }: ClampDifference) =>
    `Clamp ${clamp}, meter ${meter}: the clamp reads ${by} ${isMore ? 'more' : 'less'}. The tolerance is ${allowed}.`,
  prechargeFound: ({ precharge, tank, error, ranEmpty, atSeaLevel }: DrawResult) =>
    [
      `The precharge is about ${precharge}${tank === undefined ? '' : ` for a tank of ${tank}`}.`,
      ...(error === undefined ? [] : [`The uncertainty of the air volume is about ${error}.`]),
      ...(ranEmpty ? ['The tank ran empty in the test.'] : []),
      ...(atSeaLevel ? ['The card has no altitude: calculated for sea level.'] : []),
    ].join(' '),
  titles: {
    amps: 'Running amps',
    'cut-in': 'Cut-in',
    'cut-out': 'Cut-out',
    'fill-time': 'Fill time',
  },
  placeExamples: {
    flow: 'outdoor faucet',
    precharge: 'tank in the barn',
  },
  more: (by: string, percent: number) => `${by} more${percent === 0 ? '' : ` (${percent} %)`}`,
  less: (by: string, percent: number) => `${by} less${percent === 0 ? '' : ` (${percent} %)`}`,
  pinnedOn: (value: string, date: string, by?: string) =>
    `Pinned ${value} on ${date}${by === undefined ? '' : ` by ${by}`}.`,
  nowAgainst: ({ value, runs, difference }: { value: string; runs: number; difference: string }) =>
    `Now ${value} (${lastRuns(runs)}): ${difference}.`,
  sensorsShow: (value: string, runs: number) => `The sensors show ${value} (${lastRuns(runs)}).`,
};

function lastRuns(count: number): string {
  return count === 1 ? 'last run' : `last ${formatCount(count, 'run')}`;
}
