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

export const healthShape = z
  .object({
    ok: z.boolean(),
    reasons: z.array(z.string()).describe('What is wrong, a sentence each; empty where all is well.'),
    version: z.string(),
    upS: z.number(),
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
