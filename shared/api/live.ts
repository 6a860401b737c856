/**
 * The live stream (server-sent events, `/api/live`): each message is one of these, its `event`
 * field is also the SSE event name. Alarm messages carry an SSE id; a viewer that comes back with
 * the last one gets what it missed, or `resync` where that is no longer held: then it asks for
 * everything anew.
 */
import { z } from 'zod';
import { alarmShape } from './alarms.ts';
import { wellSummaryShape } from './wells.ts';

const liveColumnShape = z.object({
  channel: z.string(),
  timesMs: z.array(z.number()),
  values: z
    .array(z.number().nullable())
    .describe('In the unit that charts use; null where the sensor could not be read.'),
});

export const liveShape = z
  .discriminatedUnion('event', [
    z.object({ event: z.literal('connected'), version: z.string(), nowMs: z.number() }),
    z.object({ event: z.literal('resync'), why: z.string() }),
    z.object({ event: z.literal('readings'), well: z.string(), columns: z.array(liveColumnShape) }),
    z.object({ event: z.literal('well'), well: wellSummaryShape }),
    z.object({ event: z.literal('alarm'), alarm: alarmShape }),
  ])
  .meta({ id: 'LiveMessage' });
export type LiveMessage = z.output<typeof liveShape>;
export type LiveColumn = z.output<typeof liveColumnShape>;
