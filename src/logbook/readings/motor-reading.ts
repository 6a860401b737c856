/**
 * What a reading of a motor says by itself: ohms of a winding less the wire's, megohms to ground,
 * microfarads beside what is printed. A licensed person read it; nobody is asked to open a box for
 * it, and none of it clears a motor for use.
 */
import type { MotorJudgement, MotorReadingFacts } from '../../../shared/api/figures/motor-readings.ts';
import type { EntryOf } from '../../../shared/entries/entry.ts';
import type { Card } from '../../core/domain/card.ts';
import type { PumpDescription } from '../../core/domain/description.ts';
import { loopOhm } from '../../core/domain/wire-resistance.ts';
import { readingSi } from '../entries/read-reading.ts';

type ReadingBody = EntryOf<'reading'>['body'];

/**
 * Motor in the well, read with its cable: at least 2 megohm where it is new, 0.5 to 2 where it is
 * good, less where insulation is damaged (a motor maker's installation manual, table of insulation
 * resistance).
 */
const IN_WATER_OHM = { new: 2e6, good: 0.5e6 } as const;
/**
 * Out of the water, without its cable: 200 megohm new, 10 fit to be set again (the same table, from
 * memory).
 */
const OUT_OF_WATER_OHM = { new: 200e6, good: 10e6 } as const;
/** Capacitors are marked within 10 % (common practice, no source); start capacitors give more. */
const CAPACITOR_RATIO = { min: 0.9, max: { run: 1.1, start: 1.25 } } as const;

/** Undefined for a reading that says nothing by itself. */
export function motorReading(body: ReadingBody, card: Card): MotorReadingFacts | undefined {
  const read = readingSi(body);
  if (!read) return undefined;
  const notes = pumpNotes(body, card);
  if (read.what === 'insulation') return { judgement: insulationJudgement(read.si, body.motor) };
  if (read.what === 'winding') return windingFacts(read.si, notes);
  return read.what === 'capacitor' ? capacitorFacts(read.si, body.capacitor, notes) : undefined;
}

/** A reading that names no pump is of the first. */
function pumpNotes({ pump = 'p1' }: ReadingBody, card: Card): PumpDescription | undefined {
  return card.description?.pumps[pump];
}

/** In the well where it is not said: that is how a motor is tested that still hangs there. */
function insulationJudgement(ohm: number, motor: ReadingBody['motor']): MotorJudgement {
  const limits = motor === 'out-of-water' ? OUT_OF_WATER_OHM : IN_WATER_OHM;
  if (ohm >= limits.new) return 'insulation-new';
  return ohm >= limits.good ? 'insulation-good' : 'insulation-damaged';
}

function windingFacts(ohm: number, notes: PumpDescription | undefined): MotorReadingFacts | undefined {
  const wireOhm = loopOhm(notes?.wire);
  if (wireOhm === undefined) return undefined;
  return wireOhm >= ohm ? { wireOhm, judgement: 'less-than-the-wire' } : { wireOhm, motorOhm: ohm - wireOhm };
}

function capacitorFacts(
  uf: number,
  which: ReadingBody['capacitor'],
  notes: PumpDescription | undefined,
): MotorReadingFacts | undefined {
  const printedUf = which && (which === 'run' ? notes?.runCapacitorUf : notes?.startCapacitorUf);
  if (which === undefined || printedUf === undefined) return undefined;
  const ratio = uf / printedUf;
  const isRight = ratio >= CAPACITOR_RATIO.min && ratio <= CAPACITOR_RATIO.max[which];
  return { printedUf, judgement: isRight ? 'capacitor-right' : 'capacitor-off' };
}
