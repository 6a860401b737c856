/**
 * A reading that a person brought, or that was taken from the sensors while a person stood by: what, its value with the unit, where it was
 * taken, with which instrument. `pinned` says that later readings are to be shown against it.
 */
import type { ParseContext } from '../../core/domain/parse-context.ts';
import {
  choiceAt,
  childContext,
  required,
  addIssue,
  quantityAt,
  textAt,
  fieldValue,
} from '../../core/domain/parse-context.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import type { Dimension } from '../../../shared/quantity/units.ts';
import type { ValueRange } from '../../../shared/schema/field.ts';
import { MAX_NAME_LENGTH, MAX_NOTE_LENGTH } from './limits.ts';
import { documentRefsAt } from '../documents/document-refs.ts';
import type { BodyReader } from './read-entry.ts';

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

/** 300 psi, as on the card; a gauge reads no less than nothing. */
const PRESSURE: ValueRange = { min: 0, max: 2070, text: 'between 0 and 300 psi (2,070 kPa)' };
/** Down from the ground; the deepest private wells lie far under 1,000 m. A flowing well stands above its own ground. */
const LEVEL: ValueRange = {
  min: -30,
  max: 1_000,
  text: 'between 30 m (100 ft) above the ground and 1,000 m under it',
};
/** Service of a private well: 600 V class. */
const VOLTS: ValueRange = { min: 0, max: 700, text: 'between 0 and 700 V' };

/** What a value can be at all: a slip of the pen is refused, an odd value is kept. */
const LIMITS: Record<ReadingKind, ValueRange> = {
  'static-level': LEVEL,
  'pumping-level': LEVEL,
  precharge: PRESSURE,
  'cut-in': PRESSURE,
  'cut-out': PRESSURE,
  'fill-time': { min: 1, max: 86_400, text: 'between 1 s and 24 h' },
  amps: { min: 0, max: 500, text: 'between 0 and 500 A' },
  flow: { min: 0, max: 130, text: 'between 0 and 2,000 gpm (130 L/s)' },
  'volts-resting': VOLTS,
  'volts-running': VOLTS,
  winding: { min: 0, max: 1e4, text: 'between 0 and 10 kohm' },
  insulation: { min: 0, max: 1e12, text: 'between 0 and 1,000,000 megohm' },
  capacitor: { min: 0, max: 2_000, text: 'between 0 and 2,000 uF' },
};

/** A flow by bucket and watch is its volume over its time: the value may be off by rounding and no more. */
const ROUNDING_TOLERANCE_RATIO = 0.02;
const BUCKET_L: ValueRange = { min: 0.1, max: 20_000, text: 'between 0.1 L and 20 m3' };
const STOPWATCH_S: ValueRange = { min: 1, max: 86_400, text: 'between 1 s and 24 h' };

export const readingBody: BodyReader = {
  keys: [
    'what',
    'value',
    'pump',
    'where',
    'with',
    'from',
    'clamp',
    'bucket',
    'draw',
    'pinned',
    'text',
    'papers',
  ],
  check(look) {
    const what = required(look, 'what', choiceAt(look, 'what', READING_KINDS));
    const value =
      what && required(look, 'value', quantityAt(look, 'value', READING_DIMENSIONS[what], LIMITS[what]));
    pumpAt(look);
    textAt(look, 'where', MAX_NAME_LENGTH);
    textAt(look, 'with', MAX_NAME_LENGTH);
    choiceAt(look, 'from', ['hand', 'sensors']);
    // What the node read while a meter was held to the same conductor: two such pairs calibrate it.
    quantityAt(look, 'clamp', 'current', LIMITS.amps);
    bucketAt(look, what === 'flow' ? value : undefined);
    drawAt(look);
    const pinned = fieldValue(look, 'pinned');
    if (pinned !== undefined && typeof pinned !== 'boolean')
      addIssue(look, 'pinned', 'must be true or false');
    textAt(look, 'text', MAX_NOTE_LENGTH);
    documentRefsAt(look, 'papers');
  },
};

function pumpAt(look: ParseContext): void {
  const pump = textAt(look, 'pump', MAX_NAME_LENGTH);
  if (pump !== undefined && !/^p([1-9]|1[0-5])$/.test(pump))
    addIssue(look, 'pump', 'must be a pump such as p1');
}

/** How a flow was measured, so that the reckoning can be seen. */
function bucketAt(look: ParseContext, flowLPerS: number | undefined): void {
  const bucket = childContext(look, 'bucket', ['volume', 'time']);
  if (!bucket) return;
  const volumeL = required(bucket, 'volume', quantityAt(bucket, 'volume', 'volume', BUCKET_L));
  const timeS = required(bucket, 'time', quantityAt(bucket, 'time', 'duration', STOPWATCH_S));
  if (flowLPerS === undefined) addIssue(look, 'bucket', 'belongs to a flow alone');
  else if (volumeL !== undefined && timeS !== undefined && differs(flowLPerS, volumeL / timeS))
    addIssue(look, 'value', 'must be the volume of the bucket over its time');
}

function differs(value: number, calculated: number): boolean {
  return Math.abs(value - calculated) > ROUNDING_TOLERANCE_RATIO * calculated;
}

/** The measured draw that a precharge was reckoned from (src/core/hydraulics/measured-draw.ts). */
function drawAt(look: ParseContext): void {
  const draw = childContext(look, 'draw', ['drawn', 'before', 'after', 'fellAway']);
  if (!draw) return;
  if (fieldValue(look, 'what') !== 'precharge') addIssue(look, 'draw', 'belongs to a precharge alone');
  required(draw, 'drawn', quantityAt(draw, 'drawn', 'volume', BUCKET_L));
  required(draw, 'before', quantityAt(draw, 'before', 'pressure', PRESSURE));
  required(draw, 'after', quantityAt(draw, 'after', 'pressure', PRESSURE));
  const fell = fieldValue(draw, 'fellAway');
  if (fell !== undefined && typeof fell !== 'boolean') addIssue(draw, 'fellAway', 'must be true or false');
}

/** The value of a kept reading in SI; undefined where it is written as no version before wrote it. */
export function readingSi(body: Record<string, unknown>): { what: ReadingKind; si: number } | undefined {
  const what = READING_KINDS.find((one) => one === body['what']);
  if (what === undefined) return undefined;
  const read = parseQuantity(body['value'], READING_DIMENSIONS[what]);
  return 'si' in read ? { what, si: read.si } : undefined;
}
