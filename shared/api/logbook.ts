/**
 * What people wrote down of a well, and its card with who changed it when. Shapes of entries:
 * src/logbook/entries/entry.ts.
 */
import { z } from 'zod';
import { unreadCard } from '../card/card-shape.ts';
import type { Entry, EntryOf } from '../entries/entry.ts';
import { unreadEntry, unreadEntryBody } from '../entries/entry-shape.ts';
import { comparisonShape } from './card-comparison.ts';

const opt = z.exactOptional;
const by = opt(z.string().trim().min(1).max(80));

/** Described here; what its type holds follows from the table of entries. */
export const entryShape = z
  .object({
    id: z.string(),
    well: z.string(),
    kind: z.string(),
    atMs: z.number().describe('When it was so.'),
    createdMs: z.number().describe('When it was written down.'),
    by: opt(z.string()),
    replaces: opt(z.string()).describe('The entry that this one puts right or strikes out.'),
    body: unreadEntryBody,
  })
  .meta({ id: 'Entry' }) as unknown as z.ZodType<Entry>;

export const entriesShape = z
  .object({ entries: z.array(entryShape).describe('All, in the order in which they were written.') })
  .meta({ id: 'Entries' });

export const entryRequestShape = z.strictObject({ entry: unreadEntry, by }).meta({ id: 'EntryRequest' });
export const entryResultShape = z.object({ entry: entryShape }).meta({ id: 'EntryResult' });
export const documentResultShape = entryResultShape as unknown as z.ZodType<{ entry: EntryOf<'paper'> }>;

/** A paper comes as its bytes; what it is called and belongs to stands in the query. */
export const documentQuery = z.strictObject({
  name: z.string().trim().min(1).max(120),
  about: opt(z.string().trim().min(1).max(120)),
  text: opt(z.string().trim().min(1).max(2000)),
  by,
});

export const cardAnswerShape = z
  .object({
    card: unreadCard.describe('As it was written last.'),
    /** The act that wrote it: what a change is based on. Absent where nobody wrote a card yet. */
    act: opt(z.string()),
    atMs: opt(z.number()),
    by: opt(z.string()),
    questions: z.array(
      z.object({
        key: z.string(),
        question: z.string(),
        metric: z.string().describe('The same in metric units.'),
      }),
    ),
    measured: z.array(comparisonShape),
  })
  .meta({ id: 'CardAnswer', description: 'The card as written, and what is odd about it.' });
export const cardRequestShape = z
  .strictObject({
    card: unreadCard,
    basedOn: opt(z.string()).describe('The act whose card was changed; absent for a first card.'),
    by,
  })
  .meta({ id: 'CardRequest' });
