/**
 * What people write down of a well, kind by kind with its fields: the one table. The reader
 * (src/logbook/entries/read-entry.ts) and the API's schema follow from it. An entry is kept as it
 * was written, quantities with their units.
 */
import type { Dimension } from '../quantity/units.ts';
import { rangeTexts as texts } from '../schema/texts.ts';
import {
  choice,
  choiceList,
  document,
  documents,
  flag,
  integer,
  lines,
  name,
  object,
  pumpName,
  quantity,
  required,
  special,
  text,
  type Fields,
  type ValueRange,
} from '../schema/field.ts';
import { WATER_EVENTS } from '../text/en/water-words.ts';
import type { WrittenResult } from '../water/result.ts';
import {
  MAX_DOCUMENT_BYTES,
  MAX_DOCUMENTS,
  MAX_INTERVAL_DAYS,
  MAX_NAME_LENGTH,
  MAX_NOTE_LENGTH,
  MAX_PARTS,
  MAX_RESULTS,
  MAX_TEST_LINES,
} from './limits.ts';

/** What can be read, each with the dimension of its value. */
export const READING_DIMENSIONS = {
  'static-level': 'length',
  'pumping-level': 'length',
  precharge: 'pressure',
  'cut-in': 'pressure',
  'cut-out': 'pressure',
  'fill-time': 'duration',
  amps: 'current',
  flow: 'flow',
  'volts-resting': 'voltage',
  'volts-running': 'voltage',
  winding: 'resistance',
  insulation: 'resistance',
  capacitor: 'capacitance',
} as const satisfies Record<string, Dimension>;
export type ReadingKind = keyof typeof READING_DIMENSIONS;
export const READING_KINDS = Object.keys(READING_DIMENSIONS) as ReadingKind[];

/** Between two leads, or from one to ground, by the colors of a motor's leads. */
export const LEADS = [
  'yellow-black',
  'yellow-red',
  'red-black',
  'yellow',
  'black',
  'red',
  'all-leads',
] as const;
export type Leads = (typeof LEADS)[number];
/** Of a winding; the others are of insulation. */
export const LEAD_PAIRS = ['yellow-black', 'yellow-red', 'red-black'] as const satisfies readonly Leads[];

/** 300 psi, as on the card; a gauge reads no less than nothing. */
export const GAUGE_PRESSURE: ValueRange = { min: 0, max: 2070, text: () => texts().gaugePressure };
export const METER_AMPS: ValueRange = { min: 0, max: 500, text: () => texts().meterAmps };
const TEST_LEVEL: ValueRange = { min: -30.5, max: 1500, text: () => texts().testLevel };
const TEST_FLOW: ValueRange = { min: 0.0006, max: 315.5, text: () => texts().testFlow };
const BUCKET_L: ValueRange = { min: 0.1, max: 20_000, text: () => texts().bucketL };
const STOPWATCH_S: ValueRange = { min: 1, max: 86_400, text: () => texts().stopwatchS };

export const CHECK_OUTCOMES = ['right', 'put-right', 'not-right', 'not-done'] as const;
export type CheckOutcome = (typeof CHECK_OUTCOMES)[number];

/** What work can touch. */
export const AFFECTED_PARTS = [
  'pump',
  'motor',
  'tank',
  'switch',
  'pipe',
  'wiring',
  'well',
  'sensors',
  'other',
] as const;
export type AffectedPart = (typeof AFFECTED_PARTS)[number];

const oneLine = text(MAX_NAME_LENGTH);
const note = text(MAX_NOTE_LENGTH);
const papers = documents(MAX_DOCUMENTS);

export const ENTRY_FIELDS = {
  reading: {
    what: required(choice(...READING_KINDS)),
    value: required(special<string>('text', 'a quantity in a unit of what is read')),
    pump: pumpName,
    where: oneLine,
    with: oneLine,
    /** Of a winding between which leads, of insulation from which lead to ground. */
    leads: choice(...LEADS),
    /** Insulation is judged otherwise where the motor hangs in the water. */
    motor: choice('in-water', 'out-of-water'),
    /** Which capacitor of the box. */
    capacitor: choice('start', 'run'),
    from: choice('hand', 'sensors'),
    /**
     * What the node read while a meter was held to the same conductor: two such pairs calibrate it.
     */
    clamp: quantity('current', METER_AMPS, 'clampAmps'),
    /** How a flow was measured, so that its calculation can be seen. */
    bucket: object({
      volume: required(quantity('volume', BUCKET_L, 'volumeL')),
      time: required(quantity('duration', STOPWATCH_S, 'timeS')),
    }),
    /**
     * The measured draw that a precharge was calculated from
     * (src/core/hydraulics/measured-draw.ts).
     */
    draw: object({
      drawn: required(quantity('volume', BUCKET_L, 'drawnL')),
      before: required(quantity('pressure', GAUGE_PRESSURE, 'beforeKpa')),
      after: required(quantity('pressure', GAUGE_PRESSURE, 'afterKpa')),
      fellAway: flag,
    }),
    /** Later readings are to be shown against it. */
    pinned: flag,
    text: note,
    papers,
  },
  check: {
    check: required(name),
    outcome: required(choice(...CHECK_OUTCOMES)),
    /** As it was found; where the check measures something, a quantity. */
    value: oneLine,
    /** As it was left. */
    left: oneLine,
    text: note,
    papers,
  },
  'check-plan': {
    check: required(name),
    title: oneLine,
    everyDays: integer({
      min: 1,
      max: MAX_INTERVAL_DAYS,
      text: () => texts().wholeDays(MAX_INTERVAL_DAYS),
    }),
    on: special<string>('text', 'a day of every year such as `"10-01"`'),
    next: special<string>('text', 'a date of the calendar such as `"2027-04-01"`'),
    off: flag,
    text: note,
  },
  'water-test': {
    laboratory: oneLine,
    place: oneLine,
    why: oneLine,
    results: required(
      special<WrittenResult[]>(
        'list',
        `a list of 1 to ${MAX_RESULTS} results: analyte, value and unit as text`,
      ),
    ),
    text: note,
    papers,
  },
  /** A timed drawdown: how deep the water stands, minute by minute, while so much is drawn. */
  'yield-test': {
    /** From the ground down to the water before the pump starts. */
    static: quantity('length', TEST_LEVEL, 'staticM'),
    /** Where it is held even; else it stands in the lines. */
    flow: quantity('flow', TEST_FLOW, 'flowLPerS'),
    points: required(lines({ maxItems: MAX_TEST_LINES, maxCharacters: MAX_NAME_LENGTH })),
    recovery: lines({ maxItems: MAX_TEST_LINES, maxCharacters: MAX_NAME_LENGTH }),
    from: choice('hand', 'sensors'),
    doneBy: oneLine,
    text: note,
    papers,
  },
  work: {
    done: required(note),
    parts: lines({ maxItems: MAX_PARTS, maxCharacters: MAX_NAME_LENGTH }),
    touched: choiceList(...AFFECTED_PARTS),
    /** The act that opened the visit in which it was done. */
    visit: oneLine,
    doneBy: oneLine,
    text: note,
    papers,
  },
  /** A manual, receipt, well log or photo. Its bytes lie beside the database under their hash. */
  paper: {
    hash: required(document),
    name: required(oneLine),
    type: required(oneLine),
    bytes: required(
      integer({ min: 1, max: MAX_DOCUMENT_BYTES, text: () => texts().wholeNumberUpTo(MAX_DOCUMENT_BYTES) }),
    ),
    about: oneLine,
    text: note,
  },
  /** `event` marks what makes the water worth testing (EPA, "Protect Your Home's Water"). */
  note: { text: required(note), event: choice(...WATER_EVENTS) },
  struck: { text: note },
} as const satisfies Record<string, Fields>;

export type EntryKind = keyof typeof ENTRY_FIELDS;
export const ENTRY_KINDS = Object.keys(ENTRY_FIELDS) as EntryKind[];
