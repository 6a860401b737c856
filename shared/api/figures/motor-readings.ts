/** What a reading of a motor says by itself. */
import { z } from 'zod';

const opt = z.exactOptional;

export const MOTOR_JUDGEMENTS = [
  'insulation-new',
  'insulation-good',
  'insulation-damaged',
  'capacitor-right',
  'capacitor-off',
  'less-than-the-wire',
  'windings-fit',
  'windings-differ',
  'windings-do-not-add-up',
  'start-under-main',
] as const;
export type MotorJudgement = (typeof MOTOR_JUDGEMENTS)[number];

export const motorFactsShape = z
  .object({
    judgement: opt(z.enum(MOTOR_JUDGEMENTS)),
    wireOhm: opt(z.number().describe('Of the wire there and back, by the card.')),
    motorOhm: opt(z.number().describe('What was read less the wire.')),
    printedUf: opt(z.number().describe('What the card says of the capacitor.')),
  })
  .meta({ id: 'MotorReadingFacts' });
export type MotorReadingFacts = z.output<typeof motorFactsShape>;
