/** Visits to a well: what to bring, what was done, and what the readings showed before and after. */
import { z } from 'zod';
import { entryShape } from './book.ts';

const opt = z.exactOptional;

const bringItemShape = z
  .object({
    part: z.string(),
    pump: opt(z.string()),
    known: z.array(z.string()).describe('What the card or a reading says of it.'),
    unknown: z.array(z.string()).describe('What should be known and nobody wrote down.'),
    because: z.array(z.string()).describe('Causes and alarms that ask for it; empty where nothing stands.'),
  })
  .meta({ id: 'BringItem' });
export type BringItemAnswer = z.output<typeof bringItemShape>;

export const bringShape = z
  .object({ us: z.array(bringItemShape), metric: z.array(bringItemShape) })
  .meta({ id: 'Bring', description: 'What to bring to a well, the same list in both systems of units.' });

const visitShape = z
  .object({
    id: z.string().describe('The act that opened it.'),
    openedMs: z.number(),
    openedBy: opt(z.string()),
    closedMs: opt(z.number()),
    closedBy: opt(z.string()),
    newBaseline: z.boolean().describe('Learning began anew with its close.'),
    touched: z.array(z.string()),
    asksNewBaseline: z.boolean().describe('Its work touched pump, motor, tank or switch.'),
    work: z.array(entryShape),
  })
  .meta({ id: 'Visit' });
export type VisitAnswer = z.output<typeof visitShape>;

export const visitsShape = z
  .object({ nowMs: z.number(), visits: z.array(visitShape).describe('Newest first.') })
  .meta({ id: 'Visits' });

const sideShape = z
  .object({
    n: z.number().int(),
    median: opt(z.number()),
    spread: opt(z.number().describe('1.4826 x MAD.')),
    values: z.array(z.number()).describe('For a drawing: all, or some of them in even steps.'),
  })
  .meta({ id: 'ProofSide' });
export type ProofSide = z.output<typeof sideShape>;

const PROOF_MEASURES = [
  'amps',
  'fill-time',
  'cut-in',
  'cut-out',
  'cycles-a-day',
  'leak',
  'delivery',
] as const;
export type ProofMeasure = (typeof PROOF_MEASURES)[number];

const proofLineShape = z
  .object({
    measure: z.enum(PROOF_MEASURES),
    of: z.enum(['runs', 'days']),
    needed: z.number().int(),
    before: sideShape,
    after: sideShape,
    usual: opt(z.number().describe('What was normal before the visit.')),
    verdict: z.enum(['not-known-yet', 'no-before', 'within-spread', 'changed']),
    by: opt(z.number()),
    over: opt(z.number().describe('The larger spread of both sides, and at least what can be read at all.')),
  })
  .meta({ id: 'ProofLine', description: 'SI; leak in litres a day.' });
export type ProofLineAnswer = z.output<typeof proofLineShape>;

export const proofShape = z
  .object({
    nowMs: z.number(),
    visit: visitShape,
    days: z.number().int().describe('How far both sides reach from the visit.'),
    pumps: z.array(z.object({ pump: z.string(), lines: z.array(proofLineShape) })),
  })
  .meta({ id: 'Proof', description: 'Runs and days before and after a visit.' });
