/**
 * A reading that a person brought, or that was taken from the sensors while a person stood by: the
 * rules of its value, and the value in SI.
 */
import {
  GAUGE_PRESSURE,
  LEAD_PAIRS,
  METER_AMPS,
  READING_DIMENSIONS,
  type ReadingKind,
} from '../../../shared/entries/entry-fields.ts';
import type { EntryOf } from '../../../shared/entries/entry.ts';
import { parseQuantity } from '../../../shared/quantity/parse-quantity.ts';
import type { ValueRange } from '../../../shared/schema/field.ts';
import { addIssue, quantityAt } from '../../core/domain/parse-context.ts';
import type { EntryRule } from './read-entry.ts';

/**
 * Down from the ground; the deepest private wells lie far under 1,000 m. A flowing well stands
 * above its own ground.
 */
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
  precharge: GAUGE_PRESSURE,
  'cut-in': GAUGE_PRESSURE,
  'cut-out': GAUGE_PRESSURE,
  'fill-time': { min: 1, max: 86_400, text: 'between 1 s and 24 h' },
  amps: METER_AMPS,
  flow: { min: 0, max: 130, text: 'between 0 and 2,000 gpm (130 L/s)' },
  'volts-resting': VOLTS,
  'volts-running': VOLTS,
  winding: { min: 0, max: 1e4, text: 'between 0 and 10 kohm' },
  insulation: { min: 0, max: 1e12, text: 'between 0 and 1,000,000 megohm' },
  capacitor: { min: 0, max: 2_000, text: 'between 0 and 2,000 uF' },
};

/**
 * A flow by bucket and watch is its volume over its time: the value may be off by rounding and no
 * more.
 */
const ROUNDING_TOLERANCE_RATIO = 0.02;

export const readingRule: EntryRule<'reading'> = (look, { what, bucket, draw, leads, motor, capacitor }) => {
  const value = what && quantityAt(look, 'value', READING_DIMENSIONS[what], LIMITS[what]);
  if (bucket && what !== 'flow') addIssue(look, 'bucket', 'belongs to a flow alone');
  else if (bucket && value !== undefined && differs(value, bucket.volumeL / bucket.timeS))
    addIssue(look, 'value', 'must be the volume of the bucket over its time');
  if (draw && what !== 'precharge') addIssue(look, 'draw', 'belongs to a precharge alone');
  const isPair = LEAD_PAIRS.some((pair) => pair === leads);
  if (leads !== undefined && what !== (isPair ? 'winding' : 'insulation'))
    addIssue(look, 'leads', `belongs to ${isPair ? 'a winding' : 'an insulation'} alone`);
  if (motor !== undefined && what !== 'winding' && what !== 'insulation')
    addIssue(look, 'motor', 'belongs to a winding or an insulation alone');
  if (capacitor !== undefined && what !== 'capacitor')
    addIssue(look, 'capacitor', 'belongs to a capacitor alone');
};

function differs(value: number, calculated: number): boolean {
  return Math.abs(value - calculated) > ROUNDING_TOLERANCE_RATIO * calculated;
}

/** The value of a kept reading in SI; undefined where it is no quantity that is known today. */
export function readingSi({
  what,
  value,
}: Pick<EntryOf<'reading'>['body'], 'what' | 'value'>): { what: ReadingKind; si: number } | undefined {
  const read = parseQuantity(value, READING_DIMENSIONS[what]);
  return 'si' in read ? { what, si: read.si } : undefined;
}
