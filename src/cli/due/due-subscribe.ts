/**
 * `stillwell due --subscribe`: the address at which phones on the farm's network read the calendar,
 * made where there is none.
 */
import { EXIT, UsageError, type Io } from '../command.ts';
import type { ServerApi } from '../server-api.ts';
import { texts } from './texts.ts';

type AddressRequest = 'ensure' | 'renew' | 'remove';

/**
 * What the flags ask for; undefined where they ask for no address. @throws UsageError where they
 * ask for two things.
 */
export function addressRequest(flags: {
  subscribe?: true;
  newAddress?: true;
  removeAddress?: true;
}): AddressRequest | undefined {
  const wanted: (AddressRequest | false)[] = [
    flags.subscribe === true && flags.newAddress !== true && 'ensure',
    flags.newAddress === true && 'renew',
    flags.removeAddress === true && 'remove',
  ];
  const [want, more] = wanted.filter((one) => one !== false);
  if (more !== undefined) throw new UsageError(texts().removeAddressRemovesTheAddress);
  return want;
}

/**
 * Prints one address a line, and what it means beside it. @throws Refused where no phone could
 * reach it.
 */
export async function printAddress(
  io: Io,
  api: ServerApi,
  { well, want }: { well: string | undefined; want: AddressRequest },
): Promise<number> {
  const of = well === undefined ? {} : { well };
  if (want === 'remove') {
    await api.post('setCalendarAddress', {}, { ...of, action: want });
    io.err(texts().addressWasRemovedItNo);
    return EXIT.ok;
  }
  const { server, commandOptions = '' } = await api.get('calendarAddress', of);
  if (server.is === 'closed') {
    io.err(server.error ?? texts().noPhoneCanReach({ hosts: server.hosts[0] ?? 'ADDRESS', commandOptions }));
    return EXIT.failed;
  }
  const { address } = await api.post('setCalendarAddress', {}, { ...of, action: want });
  for (const url of address?.urls ?? []) io.out(url);
  io.err(want === 'renew' ? texts().oldAddressNoLongerWorks : texts().everyoneOnThisNetworkWho);
  return EXIT.ok;
}
