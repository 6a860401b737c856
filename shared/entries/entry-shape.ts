/** Entries as the API describes them, made of their one table. */
import { z } from 'zod';
import { fieldShape, shapesOf, unread } from '../schema/zod-shape.ts';
import { name, required, text } from '../schema/field.ts';
import { ENTRY_FIELDS, ENTRY_KINDS } from './entry-fields.ts';

const COMMON = {
  well: fieldShape(required(name)),
  at: z.exactOptional(z.iso.datetime({ offset: true })).describe('When it was so; now where it is left out.'),
  replaces: z
    .exactOptional(fieldShape(text(80)))
    .describe('The entry that this one puts right or strikes out.'),
};

export const writtenEntryShape = z
  .union(
    ENTRY_KINDS.map((kind) =>
      z.strictObject({ kind: z.literal(kind), ...COMMON, ...shapesOf(ENTRY_FIELDS[kind]) }),
    ),
  )
  .meta({ id: 'WrittenEntry', description: 'What somebody writes down of a well.' });

export const entryBodyShape = z
  .union(ENTRY_KINDS.map((kind) => z.strictObject(shapesOf(ENTRY_FIELDS[kind])).describe(`Of kind ${kind}.`)))
  .meta({ id: 'EntryBody', description: 'As it was written, quantities with their units.' });

export const unreadEntry = unread('WrittenEntry');
export const unreadEntryBody = unread('EntryBody');
