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
import { texts } from './texts.ts';

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
      setMessage(error instanceof RequestError ? error.message : texts().actionFailed);
    }
  };
  return (
    <RequestView state={state} subject={texts().phoneAddress} reload={reload}>
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
  if (server.error !== undefined) return <p>{texts().portNotOpen(server.error)}</p>;
  return (
    <>
      <p>{texts().listenFirst}</p>
      <p class="address">
        stillwell serve --listen {own}
        {commandOptions}
      </p>
      <p class="secondary">
        {server.hosts.length === 0 ? texts().noHost(own) : texts().ownHosts(own, more)} {texts().afterListen}
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
          {texts().createAddress}
        </button>
      </p>
    </>
  );
}

function AccessNote({ well }: { well: string | undefined }) {
  return <p>{well === undefined ? texts().accessToAll : texts().accessToOne}</p>;
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
  if (url === undefined) return <p>{texts().noNetwork}</p>;
  const subscribe = url.replace(/^http:/, 'webcal:');
  const host = new URL(url).hostname;
  return (
    <>
      {address.urls.length > 1 && (
        <fieldset class="choices">
          <legend>{texts().chooseNetwork}</legend>
          {address.urls.map((one, i) => (
            <label key={one}>
              <input type="radio" name="calendar-network" checked={i === at} onChange={() => setAt(i)} />
              <span>{new URL(one).hostname}</span>
            </label>
          ))}
        </fieldset>
      )}
      <div class="scan">
        <AddressCode address={subscribe} about={texts().addressAsCode} />
        <div>
          <p>{texts().scanCode}</p>
          <p>
            <a class="go" href={subscribe}>
              {texts().subscribeHere}
            </a>
          </p>
          <p>{texts().typeAddress}</p>
          <p class="address">{url}</p>
          <p class="actions">
            <CopyButton text={url}>{texts().copyAddress}</CopyButton>
          </p>
        </div>
      </div>
      <AccessNote well={well} />
      <p>{texts().phoneFetches}</p>
      <p>{texts().addressStays(host)}</p>
      <details class="more">
        <summary>{texts().addressLeaked}</summary>
        <p>{texts().addressMade(agoWords(address.createdMs, now))}</p>
        <p class="actions">
          <button type="button" onClick={() => void request('renew', texts().newAddressMade)}>
            {texts().newAddress}
          </button>
          <button type="button" onClick={() => void request('remove', texts().addressRemoved)}>
            {texts().removeAddress}
          </button>
        </p>
      </details>
    </>
  );
}
