/**
 * The calendar on a telephone: whether this computer answers on the farm's network and how to make
 * it, the address as a code, a link and text, who can then read it, and how to take it away again.
 */
import { useState } from 'preact/hooks';
import type { CalendarAddressAnswer } from '../../shared/api/calendar-address.ts';
import { agoWords } from '../../shared/text/en/time-words.ts';
import { MINUTE_MS } from '../../shared/units/duration.ts';
import { useNow } from '../data/clock.ts';
import { useAppContext } from '../data/settings.ts';
import { RequestError } from '../data/source.ts';
import { useRequest } from '../data/use-request.ts';
import { CopyButton } from './copy-button.tsx';
import { lazyPage } from './lazy-page.tsx';
import { RequestView } from './request-view.tsx';

const AddressCode = lazyPage(async () => (await import('./address-code.tsx')).AddressCode);

type AddressRequest = 'ensure' | 'renew' | 'remove';

export function PhoneCalendar({ well }: { well?: string }) {
  const { source } = useAppContext();
  const scope = well === undefined ? {} : { well };
  const { state, update, reload } = useRequest(`calendar ${well ?? ''}`, () =>
    source.get('calendarAddress', scope),
  );
  const [message, setMessage] = useState('');
  const request = async (wanted: AddressRequest, done: string): Promise<void> => {
    try {
      const answer = await source.post('setCalendarAddress', {}, { ...scope, action: wanted });
      update(() => answer);
      setMessage(done);
    } catch (error) {
      setMessage(error instanceof RequestError ? error.message : 'That did not work.');
    }
  };
  return (
    <RequestView state={state} subject="the address for phones" reload={reload}>
      {({ server, address, commandOptions = '' }) => (
        <>
          {server.is === 'closed' && <CalendarClosed server={server} commandOptions={commandOptions} />}
          {server.is === 'open' && !address && (
            <CreateAddress well={well} create={() => void request('ensure', '')} />
          )}
          {server.is === 'open' && address && <Address well={well} address={address} request={request} />}
          <p role="status">{message}</p>
        </>
      )}
    </RequestView>
  );
}

type CalendarServerState = CalendarAddressAnswer['server'];

interface CalendarClosedProps {
  server: Extract<CalendarServerState, { is: 'closed' }>;
  /** What a command needs to find the data of this server. */
  commandOptions: string;
}

function CalendarClosed({ server, commandOptions }: CalendarClosedProps) {
  const [own = '192.168.1.20', ...more] = server.hosts;
  if (server.error !== undefined)
    return (
      <p>
        A phone can’t subscribe now, because the port for it could not be opened when the server was started.{' '}
        {server.error}.
      </p>
    );
  return (
    <>
      <p>
        A phone can subscribe once this computer answers on the farm’s own network. End the server and start
        it again with --listen:
      </p>
      <p class="address">
        stillwell serve --listen {own}
        {commandOptions}
      </p>
      <p class="secondary">
        {server.hosts.length === 0
          ? 'In place of 192.168.1.20 write the address of this computer on that network; just now it seems to be on none.'
          : `${own} is this computer’s address on its network${more.length > 0 ? `; it has others, too: ${more.join(', ')}` : ''}.`}{' '}
        Then the calendar answers there to whoever has its address, and the built-in broker to nodes with a
        password. These pages stay on this computer.
      </p>
    </>
  );
}

function CreateAddress({ well, create }: { well: string | undefined; create: () => void }) {
  return (
    <>
      <AccessNote well={well} />
      <p>
        <button type="button" onClick={create}>
          Let phones on this network subscribe
        </button>
      </p>
    </>
  );
}

function AccessNote({ well }: { well: string | undefined }) {
  return (
    <p>
      Whoever is on this network and has the address can read the calendar:{' '}
      {well === undefined ? 'the names of the wells' : 'the name of the well'}, what is due when and why, and
      where things are. It goes over the network in the clear (plain HTTP). Nothing can be changed by it, and
      nothing else is shown there.
    </p>
  );
}

interface AddressProps {
  well: string | undefined;
  address: NonNullable<CalendarAddressAnswer['address']>;
  request: (asked: AddressRequest, done: string) => Promise<void>;
}

function Address({ well, address, request }: AddressProps) {
  const now = useNow(MINUTE_MS);
  const [at, setAt] = useState(0);
  const url = address.urls[at] ?? address.urls[0];
  if (url === undefined)
    return <p>This computer is on no network now, so that no phone can reach the calendar.</p>;
  const subscribe = url.replace(/^http:/, 'webcal:');
  const host = new URL(url).hostname;
  return (
    <>
      {address.urls.length > 1 && (
        <fieldset class="choices">
          <legend>The network that the phone is on: this computer’s address there</legend>
          {address.urls.map((one, i) => (
            <label key={one}>
              <input type="radio" name="calendar-network" checked={i === at} onChange={() => setAt(i)} />
              <span>{new URL(one).hostname}</span>
            </label>
          ))}
        </fieldset>
      )}
      <div class="scan">
        <AddressCode address={subscribe} about="The address as a code for a phone’s camera" />
        <div>
          <p>With the phone on this network, point its camera at the code and let its calendar subscribe.</p>
          <p>
            <a class="go" href={subscribe}>
              Subscribe on this device
            </a>
          </p>
          <p>Or type it in where the phone’s calendar asks for the address to subscribe to:</p>
          <p class="address">{url}</p>
          <p class="actions">
            <CopyButton text={url}>Copy the address</CopyButton>
          </p>
        </div>
      </div>
      <AccessNote well={well} />
      <p>
        The phone has to fetch it by itself, at home; away it shows what it fetched last. A phone whose
        calendar comes from a service on the internet needs an app that subscribes from the phone itself: the
        service can’t reach this network.
      </p>
      <p>
        It holds as long as this computer keeps its address {host}: have the router always give it the same.
      </p>
      <details class="more">
        <summary>When somebody has the address who should not</summary>
        <p>
          This one was made {agoWords(address.createdMs, now)}. With a new one it stops at once. A phone that
          has it keeps what it fetched last, and needs the new one to go on.
        </p>
        <p class="actions">
          <button
            type="button"
            onClick={() =>
              void request('renew', 'There is a new address. The one before opens nothing any more.')
            }
          >
            Make a new address
          </button>
          <button
            type="button"
            onClick={() => void request('remove', 'The address was taken away. It opens nothing any more.')}
          >
            Remove the address
          </button>
        </p>
      </details>
    </>
  );
}
