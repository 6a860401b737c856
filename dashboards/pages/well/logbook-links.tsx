/** The way from a well to the pages of its book, each with what it is for. */
import { logbookUrl, LOGBOOK_TITLES, type LogbookPage } from '../../page-url.ts';

/** In the order in which they stand. */
const LINKS: readonly [what: LogbookPage, purpose: string][] = [
  ['card', 'what is known of the well: pump, hole, tank, wiring, where things are'],
  ['visit', 'what to bring, work that was done, and the proof of before and after'],
  ['checks', 'what is due when, how to look, and what was found over the years'],
  ['water', 'what the laboratory found, beside published limits'],
  ['readings', 'reference readings taken with a guide, and those that people brought'],
  ['labels', 'to print and hang at tank, switch, box, panel and well head'],
  ['documents', 'manuals, receipts, the well log, photos'],
  ['export', 'the well drawn in section, and all that is known of it as one file for whoever has it next'],
];

export function LogbookLinks({ well }: { well: string }) {
  return (
    <section aria-labelledby="logbook">
      <h2 id="logbook">The well’s book</h2>
      <ul class="logbook-links">
        {LINKS.map(([what, purpose]) => (
          <li key={what}>
            <a href={logbookUrl(well, what)}>{LOGBOOK_TITLES[what]}</a>
            <span class="secondary"> {purpose}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
