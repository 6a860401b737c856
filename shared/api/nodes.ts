/**
 * The boxes that send: who they say they are, when they were last heard, and which of them wait to
 * be let in.
 */
import { z } from 'zod';

const opt = z.exactOptional;

const nodeChannelShape = z
  .object({
    channel: z.string(),
    unit: z.string(),
    everyS: opt(z.number().describe('0 means by exception.')),
    fullScale: opt(z.number().describe('Full scale in the unit.')),
  })
  .meta({ id: 'NodeChannel' });

const nodeShape = z
  .object({
    node: z.string(),
    approved: z.boolean(),
    lastHeardMs: opt(z.number()),
    firmware: opt(z.string()),
    fedFrom: opt(z.enum(['pump-circuit', 'other-circuit', 'battery'])),
    holdsS: opt(z.number().describe('Seconds of readings it can keep.')),
    speaksFor: opt(z.array(z.string())),
    channels: z.array(nodeChannelShape),
    ignored: opt(
      z
        .object({ names: z.number().int(), last: z.string(), lastMs: z.number() })
        .describe('Names that it spoke for without a right to: how many, and the last sentence.'),
    ),
    wells: z.array(z.string()).describe('Wells that read from it.'),
  })
  .meta({ id: 'Node' });
export type NodeAnswer = z.output<typeof nodeShape>;
export const nodesShape = z
  .object({
    nowMs: z.number(),
    nodes: z.array(nodeShape),
    commandOptions: opt(z.string().describe('What a command needs to find the data of this server.')),
  })
  .meta({ id: 'Nodes' });
export type NodesAnswer = z.output<typeof nodesShape>;

export const forgetShape = z
  .object({ done: z.literal(true), node: z.string() })
  .meta({ id: 'NodeForgotten' });

export const approvalShape = z
  .object({
    done: z.literal(true),
    node: z.string(),
    credential: opt(z.string().describe('Shown once, where the built-in broker made one.')),
  })
  .meta({ id: 'NodeApproval' });
