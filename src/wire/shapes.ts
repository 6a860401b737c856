/**
 * The JSON messages of the contract as zod shapes: `hello`, `presence`, `kept` and `ask` are checked by them as they stand. Packs are
 * read by ./pack.ts; their shape here serves the published JSON Schema, which says of a pack what a schema can say.
 */
import { z } from 'zod';
import { CLOCKS, FED_FROM, PRESENCES, READING_IS } from './wire-words.ts';

const LONGEST_TEXT = 200;
/** 15 pumps of 12 channels, and room for channels that are not ours. */
const MOST_CHANNELS = 400;
/** Boots of which a node may still hold packs. */
const MOST_HELD = 1000;
/** Nodes behind one gateway. */
const MOST_SPOKEN_FOR = 5000;

const text = z.string().max(LONGEST_TEXT);
const count = z.int().min(1);
const seconds = z.number().min(0);
export const nodeNameShape = z.string().regex(/^[a-z0-9-]{1,40}$/);

export const helloChannelShape = z.object({
  n: text.min(1).describe('Channel, with its pump prefix where it has one.'),
  u: text.describe('SenML unit; empty for contact.'),
  every: seconds.exactOptional().describe('Seconds between readings, 0 by exception.'),
  over: seconds.exactOptional().describe('Seconds that a reading stands for.'),
  is: z.enum(READING_IS).exactOptional(),
  step: seconds.exactOptional().describe('Resolution.'),
  max: z.number().exactOptional().describe('Full scale.'),
});

export const heldShape = z.object({ boot: count, from: count, to: count });

export const helloShape = z
  .object({
    contract: z.int().min(1).describe('Version of this contract that the node keeps.'),
    firmware: text.exactOptional(),
    built: z.iso
      .date()
      .exactOptional()
      .describe('Day on which the firmware was built: no true clock shows an earlier time.'),
    boot: count.exactOptional(),
    up: seconds.exactOptional().describe('Seconds since the node started.'),
    clock: z.enum(CLOCKS).exactOptional(),
    holds: seconds.exactOptional().describe('Seconds of readings that the node can keep.'),
    fedFrom: z.enum(FED_FROM).exactOptional(),
    held: z.array(heldShape).max(MOST_HELD).exactOptional().describe('Packs that the node still has.'),
    speaksFor: z
      .array(nodeNameShape)
      .max(MOST_SPOKEN_FOR)
      .exactOptional()
      .describe('Nodes behind this gateway.'),
    channels: z.array(helloChannelShape).max(MOST_CHANNELS),
  })
  .describe('Who a node is. Unknown keys are ignored.');

export const presenceShape = z.enum(PRESENCES);

const range = z.tuple([count, count]);

export const keptShape = z.union([
  z.object({
    boot: count,
    seq: z.int().min(0).describe('Nothing of this boot is wanted any more up to here; 0: all of it is.'),
    also: z
      .array(range)
      .exactOptional()
      .describe('Ranges above seq of which nothing is wanted any more either.'),
    others: z.array(z.object({ boot: count, seq: z.int().min(0) })).exactOptional(),
  }),
  z.object({ wait: z.literal(true).describe('Not let in yet: hold your packs.') }),
]);

export const askShape = z.union([
  z.object({ resend: z.object({ boot: count, from: count, to: count }) }),
  z.object({ every: z.number().positive(), forS: z.number().positive() }),
]);
