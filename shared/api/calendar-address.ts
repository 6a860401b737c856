/** The address at which phones on the farm's network read the calendar of checks: whether anything answers there, and the address itself. */
import { z } from 'zod';

const opt = z.exactOptional;
const well = opt(z.string().min(1).max(40));

/** Without a well: of all wells. */
export const calendarAddressQuery = z.strictObject({ well });

/** `one` makes an address where there is none, `new` takes the old one away, `none` takes it away and makes none. */
export const calendarAddressQuestion = z.strictObject({ well, want: z.enum(['one', 'new', 'none']) });

const hosts = z.array(z.string()).describe('Addresses of this computer on its networks.');

export const calendarAddressShape = z
  .object({
    door: z.discriminatedUnion('is', [
      z.object({ is: z.literal('open'), hosts }),
      z.object({
        is: z.literal('closed'),
        hosts,
        failed: opt(z.string().describe('Why it could not be opened; absent where it was not meant to be.')),
      }),
    ]),
    address: opt(
      z.object({
        madeMs: z.number(),
        urls: z.array(z.string()).describe('The same calendar, one for each address of this computer.'),
      }),
    ),
  })
  .meta({
    id: 'CalendarAddress',
    description: 'Whoever has the address and is on the network of this computer can read the calendar.',
  });
export type CalendarAddressAnswer = z.output<typeof calendarAddressShape>;
