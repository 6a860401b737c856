/**
 * The JSON messages of the contract as zod shapes: `hello`, `presence`, `kept` and `ask` are
 * checked by them as they stand. Packs are read by ./senml/pack.ts; their shape here serves the
 * published JSON Schema, which says of a pack what a schema can say.
 */
import { z } from 'zod';
import { MAX_RECORDS, SENML_VERSION } from './limits.ts';
import { CLOCKS, FED_FROM, PRESENCES, READING_TYPES } from './wire-enums.ts';

const MAX_TEXT_CHARACTERS = 200;
/** 15 pumps of 12 channels, and room for channels that are not ours. */
const MAX_CHANNELS = 400;
/** Boots of which a node may still hold packs. */
const MAX_HELD_RANGES = 1000;
/** Nodes behind one gateway. */
const MAX_GATEWAY_NODES = 5000;

const text = z.string().max(MAX_TEXT_CHARACTERS);
const count = z.int().min(1);
const seconds = z.number().min(0);
const nodeNameShape = z.string().regex(/^[a-z0-9-]{1,40}$/);

const helloChannelShape = z.object({
  n: text.min(1).describe('Channel, with its pump prefix where it has one.'),
  u: text.describe('SenML unit; empty for contact.'),
  every: seconds.exactOptional().describe('Seconds between readings, 0 by exception.'),
  over: seconds.exactOptional().describe('Seconds that a reading stands for.'),
  is: z.enum(READING_TYPES).exactOptional(),
  step: seconds.exactOptional().describe('Resolution.'),
  max: z.number().exactOptional().describe('Full scale.'),
});

const heldShape = z.object({ boot: count, from: count, to: count });

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
    held: z.array(heldShape).max(MAX_HELD_RANGES).exactOptional().describe('Packs that the node still has.'),
    speaksFor: z
      .array(nodeNameShape)
      .max(MAX_GATEWAY_NODES)
      .exactOptional()
      .describe('Nodes behind this gateway.'),
    channels: z.array(helloChannelShape).max(MAX_CHANNELS),
  })
  .describe('Who a node is. Unknown keys are ignored.');

export const presenceShape = z.enum(PRESENCES);

const range = z.tuple([count, count]);

export const ackShape = z.union([
  z.object({
    boot: count,
    seq: z.int().min(0).describe('Nothing of this boot is wanted any more up to here; 0: all of it is.'),
    also: z
      .array(range)
      .exactOptional()
      .describe('Ranges above seq of which nothing is wanted any more either.'),
    others: z.array(z.object({ boot: count, seq: z.int().min(0) })).exactOptional(),
  }),
  z.object({ wait: z.literal(true).describe('Not approved yet: hold your packs.') }),
]);

export const askShape = z.union([
  z.object({ resend: z.object({ boot: count, from: count, to: count }) }),
  z.object({ every: z.number().positive(), forS: z.number().positive() }),
]);

/**
 * What a schema can say of one record; names, units, times and numbers across records are the
 * decoder's to check.
 */
const recordShape = z.object({
  bn: z.string().exactOptional().describe('Base name: the node and a colon.'),
  bt: z.number().exactOptional().describe('Base time, seconds: Unix time from 2^28 up, else relative.'),
  bu: z.string().exactOptional().describe('Base unit.'),
  bv: z.number().exactOptional().describe('Base value, added to each v.'),
  bver: z.int().min(1).max(SENML_VERSION).exactOptional(),
  boot: count.exactOptional().describe('First record alone: never used before under this node name.'),
  seq: count.exactOptional().describe('First record alone: counts the packs of this boot.'),
  first: count
    .exactOptional()
    .describe('First record alone: the lowest seq of this boot that the node still holds.'),
  up: seconds.exactOptional().describe('First record alone, without a clock: uptime in seconds at t = 0.'),
  n: z.string().exactOptional().describe('Channel.'),
  u: z.string().exactOptional().describe("The channel's unit."),
  t: z.number().exactOptional().describe('Seconds, added to the base time.'),
  v: z.number().exactOptional(),
  vs: z.string().exactOptional().describe('low, high or bad: a sensor that could not be read.'),
  vb: z.boolean().exactOptional().describe('contact: true calls for water.'),
});

export const packShape = z
  .array(recordShape)
  .min(1)
  .max(MAX_RECORDS)
  .describe('A SenML pack (RFC 8428). Unknown keys are ignored, but for those that end in _.');
