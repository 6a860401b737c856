/** The cards of all wells together: for a firm's table, and for the command line. */
import { z } from 'zod';
import { unreadCard } from '../card/card-shape.ts';

const opt = z.exactOptional;

const writtenCardShape = z
  .object({
    well: z.string(),
    card: unreadCard.describe('As it was written last.'),
    act: opt(z.string().describe('The act that wrote it; absent where nobody wrote a card yet.')),
    atMs: opt(z.number()),
    by: opt(z.string()),
  })
  .meta({ id: 'WrittenCard' });
export type WrittenCard = z.output<typeof writtenCardShape>;

export const cardsShape = z
  .object({ cards: z.array(writtenCardShape).describe('By the wells’ names.') })
  .meta({ id: 'Cards' });
