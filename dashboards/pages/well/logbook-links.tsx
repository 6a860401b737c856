/** The way from a well to the pages of its book, each with what it is for. */
import { logbookUrl, type LogbookPage } from '../../page-url.ts';
import { texts } from './texts.ts';
import { texts as appTexts } from '../../texts.ts';

/** In the order in which they stand. */
const LINKS: readonly LogbookPage[] = [
  'card',
  'visit',
  'checks',
  'water',
  'figures',
  'yield',
  'readings',
  'labels',
  'documents',
  'export',
];

export function LogbookLinks({ well }: { well: string }) {
  return (
    <section aria-labelledby="logbook">
      <h2 id="logbook">{texts().logbook}</h2>
      <ul class="logbook-links">
        {LINKS.map((what) => (
          <li key={what}>
            <a href={logbookUrl(well, what)}>{appTexts().titles[what]}</a>
            <span class="secondary"> {texts().pagePurposes[what]}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
