/** Yield tests of a well: level and flow against minutes, and what follows from them. */
import { z } from 'zod';

const opt = z.exactOptional;

const testPointShape = z.object({ timeS: z.number(), levelM: z.number(), flowLPerS: opt(z.number()) });

const yieldTestShape = z
  .object({
    id: opt(z.string().describe('The entry; absent for the test of the well log on the card.')),
    date: opt(z.string().describe('As much of the ISO date as is known.')),
    by: opt(z.string()),
    doneBy: opt(z.string()),
    text: opt(z.string()),
    staticM: opt(z.number()),
    points: z.array(testPointShape),
    recovery: z.array(testPointShape),
    flowLPerS: opt(z.number().describe('Over the whole test.')),
    drawdownM: opt(z.number().describe('At its end.')),
    pumpedS: opt(z.number()),
    specificCapacity: opt(z.number().describe('Flow by drawdown, L/s for each m.')),
    lateFallM: opt(z.number().describe('How far the level fell in the last quarter of the time.')),
    recoveredRatio: opt(z.number().describe('Of the drawdown, by the last line of the recovery.')),
    recoveredS: opt(z.number().describe('How long that took.')),
    change: opt(z.number().describe('Specific capacity by that of the oldest test, less 1.')),
  })
  .meta({ id: 'YieldTest' });
export type YieldTest = z.output<typeof yieldTestShape>;

const measuredTestShape = z
  .object({
    startedMs: z.number(),
    staticM: z.number(),
    flowLPerS: opt(z.number()),
    points: z.array(testPointShape),
    recovery: z.array(testPointShape),
  })
  .meta({
    id: 'MeasuredTest',
    description: 'The longest run of the last month, as the level sensor saw it.',
  });
export type MeasuredTest = z.output<typeof measuredTestShape>;

export const yieldTestsShape = z
  .object({
    nowMs: z.number(),
    timeZone: z.string(),
    today: z.string(),
    tests: z.array(yieldTestShape).describe('Newest first.'),
    measured: opt(measuredTestShape),
  })
  .meta({ id: 'YieldTests' });
export type YieldTestsAnswer = z.output<typeof yieldTestsShape>;
