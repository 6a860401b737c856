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
import { texts } from '../texts.ts';

/** A range with the name of its text. */
type Limit = Omit<ValueRange, 'text'> & { range: keyof ReturnType<typeof texts>['entry']['ranges'] };

/**
 * Down from the ground; the deepest private wells lie far under 1,000 m. A flowing well stands
 * above its own ground.
 */
const LEVEL: Limit = { min: -30, max: 1_000, range: 'level' };
/** Service of a private well: 600 V class. */
const VOLTS: Limit = { min: 0, max: 700, range: 'volts' };

/** What a value can be at all: a slip of the pen is refused, an odd value is kept. */
const LIMITS: Record<ReadingKind, ValueRange | Limit> = {
  'static-level': LEVEL,
  'pumping-level': LEVEL,
  precharge: GAUGE_PRESSURE,
  'cut-in': GAUGE_PRESSURE,
  'cut-out': GAUGE_PRESSURE,
  'fill-time': { min: 1, max: 86_400, range: 'fillTime' },
  amps: METER_AMPS,
  flow: { min: 0, max: 130, range: 'flow' },
  'volts-resting': VOLTS,
  'volts-running': VOLTS,
  winding: { min: 0, max: 1e4, range: 'winding' },
  insulation: { min: 0, max: 1e12, range: 'insulation' },
  capacitor: { min: 0, max: 2_000, range: 'capacitor' },
};

/**
 * A flow by bucket and watch is its volume over its time: the value may be off by rounding and no
 * more.
 */
const ROUNDING_TOLERANCE_RATIO = 0.02;

export const readingRule: EntryRule<'reading'> = (look, { what, bucket, draw, leads, motor, capacitor }) => {
  const value = what && quantityAt(look, 'value', READING_DIMENSIONS[what], rangeOf(what));
  if (bucket && what !== 'flow') addIssue(look, 'bucket', texts().entry.ofFlowAlone);
  else if (bucket && value !== undefined && differs(value, bucket.volumeL / bucket.timeS))
    addIssue(look, 'value', texts().entry.bucketFlow);
  if (draw && what !== 'precharge') addIssue(look, 'draw', texts().entry.ofPrechargeAlone);
  const isPair = LEAD_PAIRS.some((pair) => pair === leads);
  if (leads !== undefined && what !== (isPair ? 'winding' : 'insulation'))
    addIssue(look, 'leads', isPair ? texts().entry.ofWindingAlone : texts().entry.ofInsulationAlone);
  if (motor !== undefined && what !== 'winding' && what !== 'insulation')
    addIssue(look, 'motor', texts().entry.ofWindingOrInsulationAlone);
  if (capacitor !== undefined && what !== 'capacitor')
    addIssue(look, 'capacitor', texts().entry.ofCapacitorAlone);
};

function rangeOf(what: ReadingKind): ValueRange {
  const limit = LIMITS[what];
  return 'text' in limit ? limit : { ...limit, text: texts().entry.ranges[limit.range] };
}

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
