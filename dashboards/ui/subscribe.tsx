/**
 * The calendar of what is due, of one well or of all: on telephones, in a calendar program of this
 * computer, and as a file.
 */
import { useAppContext } from '../data/settings.ts';
import { CopyButton } from './copy-button.tsx';
import { PhoneCalendar } from './phone-calendar.tsx';

export function Subscribe({ well }: { well?: string }) {
  const { source } = useAppContext();
  if (!source.live) return null;
  const of = well === undefined ? {} : { well };
  const path = well === undefined ? '/calendar.ics' : `/calendar.ics?well=${encodeURIComponent(well)}`;
  const address = `${location.origin}${path}`;
  return (
    <section class="calendar-ways" aria-labelledby="calendar">
      <h2 id="calendar">In a calendar</h2>
      <p>
        A calendar that subscribes looks again by itself: a check that was done moves there to its next day.
        {well !== undefined && ' This one holds the checks of this well alone.'}
      </p>
      <h3>On a phone</h3>
      <PhoneCalendar {...of} />
      <h3>On this computer</h3>
      <p>For a calendar program of this computer, as a calendar to subscribe to:</p>
      <p class="address here">{address}</p>
      <p class="actions">
        <CopyButton text={address}>Copy the address</CopyButton>
        <a class="go" href={path} download="stillwell-checks.ics">
          Download calendar
        </a>
      </p>
      <p class="secondary">A file holds what is due now and does not renew itself.</p>
    </section>
  );
}
