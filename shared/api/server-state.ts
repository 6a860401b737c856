/**
 * How the server itself fares: refused packs, notices, health, and the problem document of every
 * error (RFC 9457).
 */
import { z } from 'zod';

const opt = z.exactOptional;

export const refusedShape = z
  .object({
    nowMs: z.number(),
    counts: z.array(z.object({ reason: z.string(), count: z.number().int(), lastMs: z.number() })),
    last: z.array(
      z.object({
        atMs: z.number(),
        topic: z.string(),
        node: opt(z.string()),
        reason: z.string(),
        detail: z.string(),
        head: z.string().describe('The first 512 bytes, base64.'),
      }),
    ),
  })
  .meta({
    id: 'Refused',
    description: 'Packs that were refused: counted by reason, the last ones kept for a look.',
  });
export type RefusedAnswer = z.output<typeof refusedShape>;

export const NOTICE_STATES = ['due', 'sent', 'given-up'] as const;
export const noticesShape = z
  .object({
    notices: z.array(
      z.object({
        id: z.string(),
        alarmId: z.string(),
        to: z.string(),
        what: z.enum(['raised', 'changed', 'cleared', 'withdrawn', 'test']),
        state: z.enum(NOTICE_STATES),
        dueMs: z.number(),
        createdMs: z.number(),
        sentMs: opt(z.number()),
        tries: z.number().int(),
        lastError: opt(z.string()),
        subject: z.string(),
      }),
    ),
  })
  .meta({ id: 'Notices', description: 'What was told, or is due to be told, to whom.' });

const loopDelayShape = z.object({
  minutes: z.number().describe('How far it looks back.'),
  halfMs: z.number().describe('Half of all moments were served within this time.'),
  p99Ms: z.number().describe('99 of 100 were.'),
  maxMs: z.number().describe('All were.'),
});
/** How late the server came to what was due, in the last minutes. */
export type LoopDelayAnswer = z.output<typeof loopDelayShape>;

/** The same since the start, as a metric. */
export interface DelayHistogram {
  /** Upper bounds of the classes, seconds, ascending; one more class lies over the last. */
  boundsS: readonly number[];
  /** How many came within each bound; the last number is all of them. */
  cumulative: readonly number[];
  sumS: number;
}

export const healthShape = z
  .object({
    ok: z.boolean(),
    reasons: z.array(z.string()).describe('What is wrong, a sentence each; empty where all is well.'),
    version: z.string(),
    upS: z.number(),
    delay: opt(loopDelayShape),
  })
  .meta({ id: 'Health' });

export const problemShape = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    fields: opt(z.array(z.object({ at: z.string(), rule: z.string() }))),
  })
  .meta({ id: 'Problem', description: 'RFC 9457 problem details.' });
export type Problem = z.output<typeof problemShape>;
