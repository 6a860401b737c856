/**
 * What may stand in the query of a question, with its limits. An unknown key is refused, not
 * ignored.
 */
import { z } from 'zod';
import { DAY_MS } from '../units/duration.ts';
import { NOTICE_STATES } from './server-state.ts';
import { queryTexts as texts } from '../schema/texts.ts';

const opt = z.exactOptional;

/** A year, its leap day, and the days at both ends that a time zone may add: more is refused. */
export const WINDOW_MAX_MS = 370 * DAY_MS;
const CHART_POINTS_MAX = 2_000;
/** 500 starts a day for 30 days: what the page of a short-cycling well may ask for at once. */
export const CYCLES_MAX = 15_000;

const time = z
  .string({ error: () => texts().mustBeATime })
  .transform((text, ctx) => {
    const ms = /^-?\d+$/.test(text) ? Number(text) : Date.parse(text);
    if (Number.isFinite(ms) && Math.abs(ms) <= 8.64e15) return ms;
    ctx.addIssue(texts().mustBeATime);
    return z.NEVER;
  })
  .describe('Unix ms, or an RFC 3339 time.');
const wholeNumber = (min: number, max: number) =>
  z
    .string()
    .regex(/^\d+$/, { error: () => texts().mustBeAWholeNumber })
    .transform(Number)
    .pipe(z.number().int().min(min).max(max))
    .describe(`${min} to ${max}.`);
const booleanText = z.enum(['true', 'false']).transform((text) => text === 'true');

export const chartQuery = z.strictObject({
  channel: z.string().min(1).max(40),
  from: time,
  to: time,
  points: opt(wholeNumber(1, CHART_POINTS_MAX)),
});
export const cyclesQuery = z.strictObject({ from: time, to: time, limit: opt(wholeNumber(1, CYCLES_MAX)) });
export const daysQuery = z.strictObject({ from: time, to: time, levels: opt(booleanText) });
export const alarmsQuery = z.strictObject({
  well: opt(z.string()),
  from: opt(time),
  active: opt(booleanText),
});
export const actsQuery = z.strictObject({ from: opt(time) });
export const refusedQuery = z.strictObject({ limit: opt(wholeNumber(1, 200)) });
export const noticesQuery = z.strictObject({
  state: opt(z.enum(NOTICE_STATES)),
  limit: opt(wholeNumber(1, 500)),
});
export const liveQuery = z.strictObject({ well: opt(z.string().min(1).max(40)) });
export const noQuery = z.strictObject({});
