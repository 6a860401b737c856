/** `stillwell due --subscribe`: the address at which phones on the farm's network read the calendar, made where there is none. */
import { EXIT, UsageError, type Io } from '../command.ts';
import type { ServerApi } from '../server-api.ts';

type AddressRequest = 'ensure' | 'renew' | 'remove';

/** What the flags ask for; undefined where they ask for no address. @throws UsageError where they ask for two things. */
export function addressRequest(flags: {
  subscribe?: boolean;
  'new-address'?: boolean;
  'no-address'?: boolean;
}): AddressRequest | undefined {
  const wanted: (AddressRequest | false)[] = [
    flags.subscribe === true && flags['new-address'] !== true && 'ensure',
    flags['new-address'] === true && 'renew',
    flags['no-address'] === true && 'remove',
  ];
  const [want, more] = wanted.filter((one) => one !== false);
  if (more !== undefined)
    throw new UsageError('Cannot do both: --no-address takes the address away that --subscribe tells');
  return want;
}

/** Prints one address a line, and what it means beside it. @throws Refused where no phone could reach it. */
export async function printAddress(
  io: Io,
  api: ServerApi,
  { well, want }: { well: string | undefined; want: AddressRequest },
): Promise<number> {
  const of = well === undefined ? {} : { well };
  if (want === 'remove') {
    await api.post('setCalendarAddress', {}, { ...of, action: want });
    io.err('The address was taken away. It opens nothing any more.');
    return EXIT.ok;
  }
  const { server } = await api.get('calendarAddress', of);
  if (server.is === 'closed') {
    io.err(
      server.error ??
        `No phone can reach the calendar: the server answers only this computer. Start it with: stillwell serve --listen ${server.hosts[0] ?? 'ADDRESS'}`,
    );
    return EXIT.failed;
  }
  const { address } = await api.post('setCalendarAddress', {}, { ...of, action: want });
  for (const url of address?.urls ?? []) io.out(url);
  io.err(
    want === 'renew'
      ? 'The address before opens nothing any more. Whoever is on this network and has this one can read the calendar.'
      : 'Whoever is on this network and has this address can read the calendar: names of wells, what is due when and why, and where things are.',
  );
  return EXIT.ok;
}
