/**
 * A reading that a person brought, or that was taken from the sensors while a person stood by: what, its value with the unit, where it was
 * taken, with which instrument. `pinned` says that later readings are to be shown against it.
 */
import type { Limit, Look } from '../card/look.ts';
import { choiceAt, lookInto, needed, note, quantityAt, textAt, valueOf } from '../card/look.ts';
import { parseQuantity } from '../../shared/quantity/parse-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import { LONGEST_NAME, LONGEST_NOTE } from './limits.ts';
import { paperRefsAt } from './paper-refs.ts';
import type { Body } from './read-entry.ts';

/** What can be read, each with the dimension of its value. */
export const READINGS = {
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
export type ReadingWhat = keyof typeof READINGS;
export const READING_WHATS = Object.keys(READINGS) as ReadingWhat[];

/** 300 psi, as on the card; a gauge reads no less than nothing. */
const PRESSURE: Limit = { min: 0, max: 2070, says: 'between 0 and 300 psi (2,070 kPa)' };
/** Down from the ground; the deepest private wells lie far under 1,000 m. A flowing well stands above its own ground. */
const LEVEL: Limit = {
  min: -30,
  max: 1_000,
  says: 'between 30 m (100 ft) above the ground and 1,000 m under it',
};
/** Service of a private well: 600 V class. */
const VOLTS: Limit = { min: 0, max: 700, says: 'between 0 and 700 V' };

/** What a value can be at all: a slip of the pen is refused, an odd value is kept. */
const LIMITS: Record<ReadingWhat, Limit> = {
  'static-level': LEVEL,
  'pumping-level': LEVEL,
  precharge: PRESSURE,
  'cut-in': PRESSURE,
  'cut-out': PRESSURE,
  'fill-time': { min: 1, max: 86_400, says: 'between 1 s and 24 h' },
  amps: { min: 0, max: 500, says: 'between 0 and 500 A' },
  flow: { min: 0, max: 130, says: 'between 0 and 2,000 gpm (130 L/s)' },
  'volts-resting': VOLTS,
  'volts-running': VOLTS,
  winding: { min: 0, max: 1e4, says: 'between 0 and 10 kohm' },
  insulation: { min: 0, max: 1e12, says: 'between 0 and 1,000,000 megohm' },
  capacitor: { min: 0, max: 2_000, says: 'between 0 and 2,000 uF' },
};

/** A flow by bucket and watch is its volume over its time: the value may be off by rounding and no more. */
const ROUNDED_SHARE = 0.02;
const BUCKET_L: Limit = { min: 0.1, max: 20_000, says: 'between 0.1 L and 20 m3' };
const WATCH_S: Limit = { min: 1, max: 86_400, says: 'between 1 s and 24 h' };

export const readingBody: Body = {
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
    const what = needed(look, 'what', choiceAt(look, 'what', READING_WHATS));
    const value = what && needed(look, 'value', quantityAt(look, 'value', READINGS[what], LIMITS[what]));
    pumpAt(look);
    textAt(look, 'where', LONGEST_NAME);
    textAt(look, 'with', LONGEST_NAME);
    choiceAt(look, 'from', ['hand', 'sensors']);
    // What the node read while a meter was held to the same conductor: two such pairs calibrate it.
    quantityAt(look, 'clamp', 'current', LIMITS.amps);
    bucketAt(look, what === 'flow' ? value : undefined);
    drawAt(look);
    const pinned = valueOf(look, 'pinned');
    if (pinned !== undefined && typeof pinned !== 'boolean') note(look, 'pinned', 'must be true or false');
    textAt(look, 'text', LONGEST_NOTE);
    paperRefsAt(look, 'papers');
  },
};

function pumpAt(look: Look): void {
  const pump = textAt(look, 'pump', LONGEST_NAME);
  if (pump !== undefined && !/^p([1-9]|1[0-5])$/.test(pump)) note(look, 'pump', 'must be a pump such as p1');
}

/** How a flow was measured, so that the reckoning can be seen. */
function bucketAt(look: Look, flowLPerS: number | undefined): void {
  const bucket = lookInto(look, 'bucket', ['volume', 'time']);
  if (!bucket) return;
  const volumeL = needed(bucket, 'volume', quantityAt(bucket, 'volume', 'volume', BUCKET_L));
  const timeS = needed(bucket, 'time', quantityAt(bucket, 'time', 'duration', WATCH_S));
  if (flowLPerS === undefined) note(look, 'bucket', 'belongs to a flow alone');
  else if (volumeL !== undefined && timeS !== undefined && isOff(flowLPerS, volumeL / timeS))
    note(look, 'value', 'must be the volume of the bucket over its time');
}

function isOff(value: number, reckoned: number): boolean {
  return Math.abs(value - reckoned) > ROUNDED_SHARE * reckoned;
}

/** The measured draw that a precharge was reckoned from (src/hydraulics/measured-draw.ts). */
function drawAt(look: Look): void {
  const draw = lookInto(look, 'draw', ['drawn', 'before', 'after', 'fellAway']);
  if (!draw) return;
  if (valueOf(look, 'what') !== 'precharge') note(look, 'draw', 'belongs to a precharge alone');
  needed(draw, 'drawn', quantityAt(draw, 'drawn', 'volume', BUCKET_L));
  needed(draw, 'before', quantityAt(draw, 'before', 'pressure', PRESSURE));
  needed(draw, 'after', quantityAt(draw, 'after', 'pressure', PRESSURE));
  const fell = valueOf(draw, 'fellAway');
  if (fell !== undefined && typeof fell !== 'boolean') note(draw, 'fellAway', 'must be true or false');
}

/** The value of a kept reading in SI; undefined where it is written as no version before wrote it. */
export function readingSi(body: Record<string, unknown>): { what: ReadingWhat; si: number } | undefined {
  const what = READING_WHATS.find((one) => one === body['what']);
  if (what === undefined) return undefined;
  const read = parseQuantity(body['value'], READINGS[what]);
  return 'si' in read ? { what, si: read.si } : undefined;
}
