/**
 * The address at which phones on the farm's network read the calendar of checks: whether anything
 * answers there, and the address itself.
 */
import { z } from 'zod';

const opt = z.exactOptional;
const well = opt(z.string().min(1).max(40));

/** Without a well: of all wells. */
export const calendarAddressQuery = z.strictObject({ well });

/**
 * `ensure` makes an address where there is none, `renew` takes the old one away, `remove` takes it
 * away and makes none.
 */
export const calendarAddressRequest = z.strictObject({ well, action: z.enum(['ensure', 'renew', 'remove']) });

const hosts = z.array(z.string()).describe('Addresses of this computer on its networks.');

export const calendarAddressShape = z
  .object({
    server: z.discriminatedUnion('is', [
      z.object({ is: z.literal('open'), hosts }),
      z.object({
        is: z.literal('closed'),
        hosts,
        error: opt(z.string().describe('Why it could not be opened; absent where it was not meant to be.')),
      }),
    ]),
    commandOptions: opt(z.string().describe('What a command needs to find the data of this server.')),
    address: opt(
      z.object({
        createdMs: z.number(),
        urls: z.array(z.string()).describe('The same calendar, one for each address of this computer.'),
      }),
    ),
  })
  .meta({
    id: 'CalendarAddress',
    description: 'Whoever has the address and is on the network of this computer can read the calendar.',
  });
export type CalendarAddressAnswer = z.output<typeof calendarAddressShape>;
