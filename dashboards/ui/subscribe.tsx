/**
 * The calendar of what is due, of one well or of all: on telephones, in a calendar program of this
 * computer, and as a file.
 */
import { useAppContext } from '../data/settings.ts';
import { CopyButton } from './copy-button.tsx';
import { PhoneCalendar } from './phone-calendar.tsx';
import { texts } from './texts.ts';

export function Subscribe({ well }: { well?: string }) {
  const { source } = useAppContext();
  if (!source.live) return null;
  const of = well === undefined ? {} : { well };
  const path = well === undefined ? '/calendar.ics' : `/calendar.ics?well=${encodeURIComponent(well)}`;
  const address = `${location.origin}${path}`;
  return (
    <section class="calendar-ways" aria-labelledby="calendar">
      <h2 id="calendar">{texts().calendar}</h2>
      <p>
        {texts().calendarHelp}
        {well !== undefined && ` ${texts().calendarOfOneWell}`}
      </p>
      <h3>{texts().onPhone}</h3>
      <PhoneCalendar {...of} />
      <h3>{texts().onComputer}</h3>
      <p>{texts().computerHelp}</p>
      <p class="address here">{address}</p>
      <p class="actions">
        <CopyButton text={address}>{texts().copyAddress}</CopyButton>
        <a class="go" href={path} download="stillwell-checks.ics">
          {texts().downloadCalendar}
        </a>
      </p>
      <p class="secondary">{texts().fileHelp}</p>
    </section>
  );
}
