/** The calendar of what is due, of one well or of all: its address, and the file as it is now. */
import { useState } from 'preact/hooks';
import { useSurroundings } from '../data/settings.ts';

/** What a calendar program needs: the address, or the file as it is now. */
export function Subscribe({ well }: { well?: string }) {
  const { source } = useSurroundings();
  const [copied, setCopied] = useState('');
  if (!source.live) return null;
  const path = well === undefined ? '/calendar.ics' : `/calendar.ics?well=${encodeURIComponent(well)}`;
  const address = `${location.origin}${path}`;
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(address);
      setCopied('Copied.');
    } catch {
      setCopied('This browser does not let a page copy: mark the address and copy it by hand.');
    }
  };
  return (
    <section aria-labelledby="calendar">
      <h2 id="calendar">In a calendar</h2>
      <p>
        Subscribe to this address in a calendar program (“add by address”), and each check moves there when it
        was done. The program must reach this server: from another device this address answers only where
        Stillwell is set to.
      </p>
      <p class="address">{address}</p>
      <p class="seen">
        <button type="button" onClick={() => void copy()}>
          Copy the address
        </button>
        <a class="go" href={path} download="stillwell-checks.ics">
          Take the calendar as a file
        </a>
      </p>
      <p class="doing">A file holds what is due now and does not renew itself.</p>
      <p role="status">{copied}</p>
    </section>
  );
}
