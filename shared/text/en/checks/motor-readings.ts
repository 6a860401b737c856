/**
 * Readings of a motor in words: which leads, and what a reading says by itself. None of it clears a
 * motor for use or asks anybody to open a box.
 */
import type { MotorJudgement, MotorReadingFacts } from '../../../api/figures/motor-readings.ts';
import type { ENTRY_FIELDS, Leads } from '../../../entries/entry-fields.ts';
import { formatQuantity } from '../../../quantity/format-quantity.ts';
import { formatResistance } from '../format.ts';

type ReadingFields = typeof ENTRY_FIELDS.reading;

export const LEADS_WORDS: Record<Leads, string> = {
  'yellow-black': 'yellow to black',
  'yellow-red': 'yellow to red',
  'red-black': 'red to black',
  yellow: 'yellow to ground',
  black: 'black to ground',
  red: 'red to ground',
  'all-leads': 'all leads to ground',
};

export const MOTOR_PLACE_WORDS: Record<ReadingFields['motor']['options'][number], string> = {
  'in-water': 'motor in the well',
  'out-of-water': 'motor out of the water, without its cable',
};

export const CAPACITOR_WORDS: Record<ReadingFields['capacitor']['options'][number], string> = {
  start: 'start capacitor',
  run: 'run capacitor',
};

const JUDGEMENT_TEXT: Record<MotorJudgement, string> = {
  'insulation-new': 'As good as a new motor.',
  'insulation-good': 'Good for a motor in use.',
  'insulation-damaged':
    'Too low: the insulation of the motor or its cable is damaged. Leave the pump switched off and call a licensed electrician or pump installer.',
  'capacitor-right': 'Within the range printed on it.',
  'capacitor-off': 'Outside the range printed on it: have the contractor replace it.',
  'less-than-the-wire':
    'Less than the wire on the card would read by itself. Check the wire’s size and length.',
  'windings-fit': 'The three readings are consistent.',
  'windings-differ':
    'The three windings differ by more than 10 %: read them again, then have the contractor look for a bad splice or winding.',
  'windings-do-not-add-up':
    'Yellow to black and yellow to red do not add up to red to black: read them again, then have the contractor look for a bad splice or winding.',
  'start-under-main':
    'Yellow to red reads less than yellow to black. The start winding has more ohms than the main winding: the leads may be swapped.',
};

export function judgementText(judgement: MotorJudgement): string {
  return JUDGEMENT_TEXT[judgement];
}

/** "3.1 ohm without the wire’s 1.2 ohm. Good for a motor in use." */
export function motorFactsText({ judgement, wireOhm, motorOhm, printedUf }: MotorReadingFacts): string {
  return [
    ...(motorOhm === undefined || wireOhm === undefined ? [] : [withoutWire(motorOhm, wireOhm)]),
    ...(printedUf === undefined ? [] : [`Printed: ${formatQuantity(printedUf, 'capacitance', 'us')}.`]),
    ...(judgement === undefined ? [] : [JUDGEMENT_TEXT[judgement]]),
  ].join(' ');
}

function withoutWire(motorOhm: number, wireOhm: number): string {
  return `${formatResistance(motorOhm)} without the ${formatResistance(wireOhm)} of the wire.`;
}

/** The ohms of the three pairs of leads, in one sentence. */
export function windingSetText(
  ohms: { yellowBlack: number; yellowRed: number; redBlack: number },
  wireOhm: number | undefined,
): string {
  const pairs = [
    `yellow to black ${formatResistance(ohms.yellowBlack)}`,
    `yellow to red ${formatResistance(ohms.yellowRed)}`,
    `red to black ${formatResistance(ohms.redBlack)}`,
  ].join(', ');
  const how =
    wireOhm === undefined ? 'with the wire' : `without the ${formatResistance(wireOhm)} of the wire`;
  return `Motor leads, ${how}: ${pairs}.`;
}
