/**
 * What a well gave and gives: water by month and year, and where its pumps work on their curves.
 */
import { z } from 'zod';

const opt = z.exactOptional;

const periodFields = {
  period: z.string().describe('"2026-03", or "2026" for a year.'),
  usedL: z.number().describe('Sum of the days that have a total.'),
  days: z.number().int().describe('Whole days of it since the well is watched.'),
  missingDays: z.number().int().describe('Of those, days without a total.'),
};
const monthShape = z.object(periodFields).meta({ id: 'WaterPeriod' });
export type WaterPeriod = z.output<typeof monthShape>;

const yearShape = z
  .object({
    ...periodFields,
    months: z.array(monthShape),
    allowedRatio: opt(z.number().describe('Of the volume that the card allows in a year.')),
  })
  .meta({ id: 'WaterYear' });
export type WaterYear = z.output<typeof yearShape>;

const pointShape = z.object({ flowLPerS: z.number(), headM: z.number() });

const dutyShape = z
  .object({
    flowLPerS: z.number(),
    headM: opt(z.number().describe('Without friction in the pipe.')),
    powerW: opt(z.number()),
    curveHeadM: opt(z.number().describe('Of the maker’s curve at this flow.')),
    headRatio: opt(z.number()),
    efficiency: opt(z.number().describe('Power in the water over power from the wire.')),
    whPerL: opt(z.number()),
  })
  .meta({ id: 'DutyPoint', description: 'Where a pump works now: medians of the last week’s runs.' });
export type DutyPoint = z.output<typeof dutyShape>;

const totalsShape = z
  .object({
    since: z.string().describe('The first day that counts, ISO date.'),
    installed: opt(z.string()),
    starts: z.number().int(),
    ranS: z.number(),
    uncountedDays: z.number().int(),
  })
  .meta({ id: 'PumpTotals' });
export type PumpTotals = z.output<typeof totalsShape>;

const pumpFiguresShape = z
  .object({
    pump: z.string(),
    curve: z.array(pointShape),
    duty: opt(dutyShape),
    level: opt(
      z
        .object({ m: z.number(), from: z.enum(['sensor', 'reading']), atMs: z.number() })
        .describe('The pumping level that the head rests on.'),
    ),
    totals: opt(totalsShape),
    drop: opt(
      z
        .object({ volts: z.number(), ratio: z.number(), amps: z.number() })
        .describe('What the wire on the card loses at the maximum amps.'),
    ),
  })
  .meta({ id: 'PumpFigures' });
export type PumpFigures = z.output<typeof pumpFiguresShape>;

export const figuresAnswerShape = z
  .object({
    nowMs: z.number(),
    timeZone: z.string(),
    years: z.array(yearShape).describe('Newest first.'),
    allowedL: opt(z.number()),
    pumps: z.array(pumpFiguresShape),
  })
  .meta({ id: 'WellFigures' });
export type FiguresAnswer = z.output<typeof figuresAnswerShape>;
