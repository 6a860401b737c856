/** The card as the API describes it, made of its one table. */
import { z } from 'zod';
import { shapesOf, unread } from '../schema/zod-shape.ts';
import { CARD_OBJECTS, CONTROL, objectsIn } from './card-fields.ts';

const opt = z.exactOptional;

/** An object of the card with those that lie in it. */
function objectShape(at: string, more: Record<string, z.ZodType> = {}): z.ZodObject {
  const inner = objectsIn(at).map(
    (key) => [key, opt(objectShape(at === '' ? key : `${at}.${key}`))] as const,
  );
  return z.strictObject({ ...shapesOf(CARD_OBJECTS[at] ?? {}), ...Object.fromEntries(inner), ...more });
}

const sources = z.record(z.string(), z.string()).describe('By the well’s channel: a node and its channel.');

export const unreadCard = unread('Card');

export const cardShape = objectShape('', {
  switch: opt(z.union([z.string(), objectShape('switch')])),
  pumps: opt(
    z
      .record(z.string(), z.strictObject({ ...shapesOf(CONTROL), pump: opt(objectShape('pump')) }))
      .describe('Several pumps, p1, p2 …, instead of control and pump.'),
  ),
  reads: opt(
    z
      .union([sources, z.array(sources)])
      .describe('Where readings come from; a list has `since`, RFC 3339, in each.'),
  ),
}).meta({ id: 'Card', description: 'What a person knows of the well, as it is written.' });
