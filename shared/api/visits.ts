/**
 * Visits to a well: what to bring, what was done, and what the readings showed before and after.
 */
import { z } from 'zod';
import type { EntryOf } from '../entries/entry.ts';
import { entryShape } from './logbook.ts';

const opt = z.exactOptional;

const partsListItemShape = z
  .object({
    part: z.string(),
    pump: opt(z.string()),
    known: z.array(z.string()).describe('What the card or a reading says of it.'),
    unknown: z.array(z.string()).describe('What should be known and nobody wrote down.'),
    reasons: z.array(z.string()).describe('Causes and alarms that ask for it; empty where nothing stands.'),
  })
  .meta({ id: 'PartsListItem' });
export type PartsListItemAnswer = z.output<typeof partsListItemShape>;

export const partsListShape = z
  .object({ us: z.array(partsListItemShape), metric: z.array(partsListItemShape) })
  .meta({ id: 'PartsList', description: 'What to bring to a well, the same list in both systems of units.' });

const visitShape = z
  .object({
    id: z.string().describe('The act that opened it.'),
    openedMs: z.number(),
    openedBy: opt(z.string()),
    closedMs: opt(z.number()),
    closedBy: opt(z.string()),
    newBaseline: z.boolean().describe('Learning began anew with its close.'),
    affectedParts: z.array(z.string()),
    needsNewBaseline: z.boolean().describe('Its work touched pump, motor, tank or switch.'),
    work: z.array(entryShape as z.ZodType<EntryOf<'work'>>),
  })
  .meta({ id: 'Visit' });
export type VisitAnswer = z.output<typeof visitShape>;

export const visitsShape = z
  .object({ nowMs: z.number(), visits: z.array(visitShape).describe('Newest first.') })
  .meta({ id: 'Visits' });

const sideShape = z
  .object({
    count: z.number().int(),
    median: opt(z.number()),
    spread: opt(z.number().describe('1.4826 x MAD.')),
    values: z.array(z.number()).describe('For a drawing: all, or some of them in even steps.'),
  })
  .meta({ id: 'ReportSide' });
export type ReportSide = z.output<typeof sideShape>;

export const REPORT_MEASURES = [
  'amps',
  'fill-time',
  'cut-in',
  'cut-out',
  'cycles-a-day',
  'leak',
  'delivery',
] as const;
export type ReportMeasure = (typeof REPORT_MEASURES)[number];

const reportLineShape = z
  .object({
    measure: z.enum(REPORT_MEASURES),
    sampleKind: z.enum(['runs', 'days']),
    minCount: z.number().int(),
    before: sideShape,
    after: sideShape,
    normal: opt(z.number().describe('What was normal before the visit.')),
    verdict: z.enum(['pending', 'no-baseline', 'within-spread', 'changed']),
    difference: opt(z.number()),
    threshold: opt(
      z.number().describe('The larger spread of both sides, and at least what can be read at all.'),
    ),
  })
  .meta({ id: 'ReportLine', description: 'SI; leak in litres a day.' });
export type ReportLineAnswer = z.output<typeof reportLineShape>;

export const reportShape = z
  .object({
    nowMs: z.number(),
    visit: visitShape,
    days: z.number().int().describe('How far both sides reach from the visit.'),
    pumps: z.array(z.object({ pump: z.string(), lines: z.array(reportLineShape) })),
  })
  .meta({ id: 'Report', description: 'Runs and days before and after a visit.' });
