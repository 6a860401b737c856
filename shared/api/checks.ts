/**
 * The checks of the first hour as a well's page shows them: what each asks, what the card says,
 * what was measured, and what to do.
 */
import { z } from 'zod';
import { DIMENSIONS } from '../quantity/units.ts';
import { CHECK_KINDS } from '../text/en/checks/checks.ts';

const opt = z.exactOptional;

const figureShape = z
  .object({ value: z.number(), dimension: z.enum(DIMENSIONS) })
  .meta({ id: 'CheckFigure', description: 'One figure in SI.' });

export const checkShape = z
  .object({
    what: z.enum(CHECK_KINDS),
    pump: opt(z.string()),
    state: z.enum(['agrees', 'differs', 'not-yet']),
    question: z.string(),
    card: opt(z.array(figureShape).describe('What the card says.')),
    measured: opt(z.array(figureShape)),
    action: opt(z.string().describe('What to do, where card and readings differ.')),
    waitingFor: opt(z.string().describe('What it waits for, where it cannot be told yet.')),
  })
  .meta({ id: 'Check', description: 'Do clamp, transducer, switch, tank and card agree?' });
export type CheckAnswer = z.output<typeof checkShape>;
