/**
 * Acts of people, written as the contract writes them (firmware-contract/contract.md, section 6): quantities are text with a
 * unit, times are RFC 3339. The server adds the time at which it was done. `server-away` and `tick` are the server's own.
 */
import { z } from 'zod';
import { unreadCard } from '../card/card-shape.ts';

const opt = z.exactOptional;
const well = z.string().min(1).max(40);
const pump = z
  .string()
  .regex(/^p([1-9]|1[0-5])$/)
  .describe('p1, p2 …');
const quantity = z.string().min(1).max(40).describe('A number with its unit, such as "7.9 A" or "40 psi".');
const until = z.iso.datetime({ offset: true });

export const actShape = z
  .discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('card-changed'), card: unreadCard }),
    z.strictObject({ kind: z.literal('visit-opened'), well }),
    z.strictObject({ kind: z.literal('visit-closed'), well, newBaseline: opt(z.boolean()) }),
    z.strictObject({
      kind: z.literal('pinned'),
      well,
      pump,
      amps: opt(quantity),
      cutIn: opt(quantity),
      cutOut: opt(quantity),
    }),
    z.strictObject({
      kind: z.literal('calibrated'),
      node: z.string().min(1).max(40),
      channel: z.string().min(1).max(40),
      points: z.array(z.tuple([z.number(), z.number()])).length(2),
    }),
    z.strictObject({ kind: z.literal('acknowledged'), well, pump: opt(pump), alarm: z.string() }),
    z.strictObject({ kind: z.literal('shelved'), well, pump: opt(pump), alarm: z.string(), until }),
    z.strictObject({ kind: z.literal('out-of-service'), well }),
    z.strictObject({ kind: z.literal('back-in-service'), well }),
    z.strictObject({
      kind: z.literal('laid-up'),
      well,
      until: opt(until),
      text: opt(z.string().trim().min(1).max(200).describe('Why, as it was said.')),
    }),
    z.strictObject({ kind: z.literal('expected'), well, text: z.string().trim().min(1).max(200), until }),
  ])
  .meta({
    id: 'Act',
    description: 'What a person did or says of a well. Nothing here can start, stop or set a pump.',
  });
/** An act as the contract writes it, without its time. */
export type WrittenAct = z.output<typeof actShape>;

export const actRequestShape = z
  .strictObject({ act: actShape, by: opt(z.string().trim().min(1).max(80)) })
  .meta({ id: 'ActRequest' });

export const actResultShape = z
  .object({ done: z.literal(true), atMs: z.number().describe('The time it was done, by our clock.') })
  .meta({ id: 'ActResult' });

const actRowShape = z
  .object({
    id: z.string(),
    atMs: z.number(),
    by: opt(z.string()),
    well: opt(z.string()),
    node: opt(z.string()),
    kind: z.string(),
    body: z.unknown(),
  })
  .meta({ id: 'ActRow', description: 'An act as it was kept.' });
export const actsShape = z.object({ acts: z.array(actRowShape) }).meta({ id: 'Acts' });
