/** A well's packet: all that is known of it, to be handed over (src/book/packet/). */
import { z } from 'zod';

const opt = z.exactOptional;

export const packetQuery = z.strictObject({
  units: opt(z.enum(['us', 'metric'])).describe('Of the page; those of the card where not given.'),
});

export const takePacketQuery = z.strictObject({
  same: opt(z.enum(['true', 'false']).transform((text) => text === 'true')).describe(
    'The well of this name here is the same one, though nothing in the packet is known of it.',
  ),
  by: opt(z.string().trim().min(1).max(80)),
});

const count = z.number().int();
export const packetTakenShape = z
  .object({
    well: z.string(),
    isNew: z.boolean().describe('It was not known here.'),
    added: z.object({
      acts: count,
      entries: count,
      papers: count,
      baselines: count,
      days: count,
      cycles: count,
      alarms: count,
    }),
    missing: z.array(z.string()).describe('Papers that did not come with it, by name.'),
    said: z.array(z.string()).describe('The same in sentences.'),
  })
  .meta({ id: 'PacketTaken', description: 'What a packet brought that was not known here.' });
