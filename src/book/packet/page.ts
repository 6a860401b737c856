/**
 * The packet's page: all that is known of a well in one HTML file, for whoever has the well after us. It needs no server, no network and no
 * script; it is dated by the newest thing in it. The record that it was made from stands in it as data.
 */
import { CAUTIONS } from '../../../shared/words/cautions.ts';
import { sayCount } from '../../../shared/words/format.ts';
import { readCard } from '../../card/read-card.ts';
import { unitsOfCard } from '../section-facts.ts';
import type { UnitSystem } from '../../../shared/quantity/print-quantity.ts';
import { alarmsPart } from './alarms-part.ts';
import { actsPart, entriesPart } from './book-part.ts';
import { cardPart } from './card-part.ts';
import { checksPart } from './checks-part.ts';
import { dayOf, newContext, type Context } from './context.ts';
import { embedRecord } from './embed.ts';
import { html, section, type Markup } from './markup.ts';
import { papersPart } from './papers-part.ts';
import { nameOf } from './plain-words.ts';
import { normalPart, readingsPart } from './readings-part.ts';
import { lastCard, type WellRecord } from './record.ts';
import { sectionPart } from './section-part.ts';
import { STYLE } from './style.ts';
import { trendsPart } from './trends-part.ts';
import { visitsPart } from './visits-part.ts';
import { waterPart } from './water-part.ts';

export interface PageParts {
  record: WellRecord;
  /** The record as text: what is embedded. */
  text: string;
  /** Hashes of the papers that are at hand. */
  papers: ReadonlySet<string>;
  /** Those of the card where not given. */
  units?: UnitSystem;
}

export function packetPage({ record, text, papers, units }: PageParts): string {
  const written = lastCard(record)?.card;
  const read = written === undefined ? undefined : readCard(written);
  const card = read && 'card' in read ? read.card : undefined;
  const context = newContext(record, { card, papers, units: units ?? unitsOfCard(written) });
  return whole(context, partsOf(context), text);
}

type Part = [id: string, title: string, inner: Markup];

function partsOf(context: Context): Part[] {
  return [
    ['section', 'The well in section', sectionPart(context)],
    ['card', 'The card', cardPart(context)],
    ['readings', 'Readings that people took', readingsPart(context)],
    ['normal', 'What was normal', normalPart(context)],
    ['trends', 'Trends', trendsPart(context)],
    ['alarms', 'Alarms', alarmsPart(context)],
    ['checks', 'Checks', checksPart(context)],
    ['water', 'Water tests', waterPart(context)],
    ['visits', 'Visits and work', visitsPart(context)],
    ['acts', 'Acts', actsPart(context)],
    ['notes', 'Notes', entriesPart(context, ['note'], 'None.')],
    ['papers', 'Papers', papersPart(context)],
    ['data', 'What else is in here', dataPart(context)],
  ];
}

function dataPart({ record }: Context): Markup {
  const { acts, entries, baselines, days, cycles, alarms } = record;
  const counts = [
    sayCount(acts.length, 'act', 'acts'),
    sayCount(entries.length, 'entry', 'entries'),
    sayCount(baselines.length, 'baseline', 'baselines'),
    sayCount(days.length, 'day', 'days'),
    sayCount(cycles.length, 'pump cycle', 'pump cycles'),
    sayCount(alarms.length, 'alarm', 'alarms'),
  ];
  return html`<p>
    This page holds everything again for programs, a line of JSON each, in a script block that no browser
    runs: ${counts.join(', ')}. Quantities there are SI with the unit in the name, times Unix milliseconds or
    UTC. Another Stillwell takes the page or its ZIP in and has the whole past of the well:
    <code>stillwell packet import FILE</code>.
  </p> `;
}

function whole(context: Context, parts: readonly Part[], text: string): string {
  const { record, card, untilMs } = context;
  const title = nameOf(record.well);
  const uses = card?.uses.join(', ');
  return html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
        <title>${title}: the well’s packet</title>
        <style>
          ${{ markup: STYLE }}
        </style>
      </head>
      <body>
        <header>
          <h1>${title}</h1>
          <p>
            ${card?.site !== undefined && `At ${card.site}. `}${uses !== undefined && uses !== '' && `For ${uses}. `}All
            that was written, measured and told of this well, up to
            ${untilMs === 0 ? 'nothing yet' : dayOf(context, untilMs)}. Times are
            ${context.timeZone === 'UTC' ? 'UTC' : `those of ${context.timeZone}`}.
          </p>
          <p class="caution">${CAUTIONS['only-watches']} ${CAUTIONS['lock-out']} ${CAUTIONS.electrician}</p>
        </header>
        <nav aria-label="Parts">
          <ul>
            ${parts.map(([id, name]) => html`<li><a href="#${id}">${name}</a></li> `)}
          </ul>
        </nav>
        <main>${parts.map(([id, name, inner]) => section(id, name, inner))}</main>
        ${{ markup: embedRecord(text) }}
      </body>
    </html> `.markup;
}
