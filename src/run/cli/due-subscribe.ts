/** `stillwell due --subscribe`: the address at which phones on the farm's network read the calendar, made where there is none. */
import { EXIT, Misuse, type Io } from './command.ts';
import type { ServerApi } from './server-api.ts';

type Want = 'one' | 'new' | 'none';

/** What the flags ask for; undefined where they ask for no address. @throws Misuse where they ask for two things. */
export function addressWanted(flags: {
  subscribe?: boolean;
  'new-address'?: boolean;
  'no-address'?: boolean;
}): Want | undefined {
  const wanted: (Want | false)[] = [
    flags.subscribe === true && flags['new-address'] !== true && 'one',
    flags['new-address'] === true && 'new',
    flags['no-address'] === true && 'none',
  ];
  const [want, more] = wanted.filter((one) => one !== false);
  if (more !== undefined)
    throw new Misuse('Cannot do both: --no-address takes the address away that --subscribe tells');
  return want;
}

/** Prints one address a line, and what it means beside it. @throws Refused where no phone could reach it. */
export async function tellAddress(
  io: Io,
  api: ServerApi,
  { well, want }: { well: string | undefined; want: Want },
): Promise<number> {
  const of = well === undefined ? {} : { well };
  if (want === 'none') {
    await api.tell('setCalendarAddress', {}, { ...of, want });
    io.err('The address was taken away. It opens nothing any more.');
    return EXIT.ok;
  }
  const { door } = await api.ask('calendarAddress', of);
  if (door.is === 'closed') {
    io.err(
      door.failed ??
        `No phone can reach the calendar: the server answers only this computer. Start it with: stillwell serve --listen ${door.hosts[0] ?? 'ADDRESS'}`,
    );
    return EXIT.failed;
  }
  const { address } = await api.tell('setCalendarAddress', {}, { ...of, want });
  for (const url of address?.urls ?? []) io.out(url);
  io.err(
    want === 'new'
      ? 'The address before opens nothing any more. Whoever is on this network and has this one can read the calendar.'
      : 'Whoever is on this network and has this address can read the calendar: names of wells, what is due when and why, and where things are.',
  );
  return EXIT.ok;
}
