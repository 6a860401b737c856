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

const m = z.number().describe('Metres down from the ground.');
/** What the drawing of a well shows (shared/drawing/section.ts). */
export const sectionShape = z
  .object({
    holeM: opt(m),
    casingToM: opt(m),
    casingOf: opt(z.string()),
    staticM: opt(m),
    pumpingM: opt(m),
    setM: opt(m),
    pump: opt(z.enum(['in-the-hole', 'above-ground'])),
    pumpSays: opt(z.string()),
    dropPipeSays: opt(z.string()),
    checkValvesM: z.array(m),
    checkValvesBeside: z.array(z.string()),
    tankSays: opt(z.string()),
    switchSays: opt(z.string()),
  })
  .meta({
    id: 'Section',
    description: 'The well in section, from its card and the newest readings of its levels.',
  });
export const sectionQuery = z.strictObject({
  units: z.enum(['us', 'metric']).describe('Of what is said in words.'),
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
