/**
 * Acts of people, written as the contract writes them (firmware-contract/contract.md, section 6):
 * quantities are text with a unit, times are RFC 3339. The server adds the time at which it was
 * done. `server-away` and `tick` are the server's own.
 */
import { z } from 'zod';
import { ACT_FIELDS, REMARK, SERVER_ACTS, type WrittenAct } from '../acts/act-fields.ts';
import { unreadCard } from '../card/card-shape.ts';
import { shapesOf } from '../schema/zod-shape.ts';

const opt = z.exactOptional;
const own: readonly string[] = SERVER_ACTS;

function kindShape(kind: string, fields: Record<string, z.ZodType>) {
  return z.strictObject({ kind: z.literal(kind), ...shapesOf(REMARK), ...fields });
}

export const actShape = z
  .discriminatedUnion('kind', [
    kindShape('card-changed', { card: unreadCard }),
    ...Object.entries(ACT_FIELDS)
      .filter(([kind]) => !own.includes(kind))
      .map(([kind, fields]) => kindShape(kind, shapesOf(fields))),
  ])
  .meta({
    id: 'Act',
    description: 'What a person did or said of a well. Nothing here can start, stop or set a pump.',
  });

export const actRequestShape = z
  .strictObject({
    // Made of the table that the type is made of: the compiler does not follow it through the
    // shapes.
    // oxlint-disable-next-line typescript/no-unsafe-type-assertion
    act: actShape as unknown as z.ZodType<WrittenAct>,
    by: opt(z.string().trim().min(1).max(80)),
  })
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
