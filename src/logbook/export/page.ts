/**
 * The packet's page: all that is known of a well in one HTML file, for whoever has the well after
 * us. It needs no server, no network and no script; it is dated by the newest thing in it. The
 * record that it was made from stands in it as data.
 */
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { formatCount } from '../../../shared/text/en/format.ts';
import { readCard } from '../../core/domain/read-card.ts';
import { unitsOfCard } from '../visits/section-facts.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { alarmsSection } from './alarms-section.ts';
import { actsSection, entriesSection } from './entries-section.ts';
import { cardSection } from './card-section.ts';
import { checksSection } from './checks-section.ts';
import { formatDay, newExportContext, type ExportContext } from './context.ts';
import { embedRecord } from './zip/embed.ts';
import { html, section, type Markup } from './markup.ts';
import { documentsSection } from './documents-section.ts';
import { humanizeKey } from './key-names.ts';
import { baselinesSection, readingsSection } from './readings-section.ts';
import { lastCard, type WellRecord } from './record.ts';
import { drawingSection } from './drawing-section.ts';
import { STYLE } from './style.ts';
import { trendsSection } from './trends-section.ts';
import { visitsSection } from './visits-section.ts';
import { waterSection } from './water-section.ts';

export interface PageInput {
  record: WellRecord;
  /** The record as text: what is embedded. */
  text: string;
  /** Hashes of the papers that are at hand. */
  availableDocuments: ReadonlySet<string>;
  /** Those of the card where not given. */
  units?: UnitSystem;
}

export function exportPage({ record, text, availableDocuments, units }: PageInput): string {
  const written = lastCard(record)?.card;
  const read = written === undefined ? undefined : readCard(written);
  const card = read && 'card' in read ? read.card : undefined;
  const context = newExportContext(record, {
    card,
    availableDocuments,
    units: units ?? unitsOfCard(written),
  });
  return pageHtml(context, pageSections(context), text);
}

type PageSection = [id: string, title: string, inner: Markup];

function pageSections(context: ExportContext): PageSection[] {
  return [
    ['section', 'The well in section', drawingSection(context)],
    ['card', 'The card', cardSection(context)],
    ['readings', 'Readings that people took', readingsSection(context)],
    ['normal', 'What was normal', baselinesSection(context)],
    ['trends', 'Trends', trendsSection(context)],
    ['alarms', 'Alarms', alarmsSection(context)],
    ['checks', 'Checks', checksSection(context)],
    ['water', 'Water tests', waterSection(context)],
    ['visits', 'Visits and work', visitsSection(context)],
    ['acts', 'Acts', actsSection(context)],
    ['notes', 'Notes', entriesSection(context, ['note'], 'None.')],
    ['papers', 'Papers', documentsSection(context)],
    ['data', 'What else is in here', dataSection(context)],
  ];
}

function dataSection({ record }: ExportContext): Markup {
  const { acts, entries, baselines, days, cycles, alarms } = record;
  const counts = [
    formatCount(acts.length, 'act', 'acts'),
    formatCount(entries.length, 'entry', 'entries'),
    formatCount(baselines.length, 'baseline', 'baselines'),
    formatCount(days.length, 'day', 'days'),
    formatCount(cycles.length, 'pump cycle', 'pump cycles'),
    formatCount(alarms.length, 'alarm', 'alarms'),
  ];
  return html`<p>
    This page holds everything again for programs, a line of JSON each, in a script block that no browser
    runs: ${counts.join(', ')}. Quantities there are SI with the unit in the name, times Unix milliseconds or
    UTC. Another Stillwell takes the page or its ZIP in and has the whole past of the well:
    <code>stillwell import FILE</code>.
  </p> `;
}

function pageHtml(context: ExportContext, sections: readonly PageSection[], text: string): string {
  const { record, card, newestMs } = context;
  const title = humanizeKey(record.well);
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
            ${newestMs === 0 ? 'nothing yet' : formatDay(context, newestMs)}. Times are
            ${context.timeZone === 'UTC' ? 'UTC' : `those of ${context.timeZone}`}.
          </p>
          <p class="caution">${CAUTIONS['only-watches']} ${CAUTIONS['lock-out']} ${CAUTIONS.electrician}</p>
        </header>
        <nav aria-label="Parts">
          <ul>
            ${sections.map(([id, name]) => html`<li><a href="#${id}">${name}</a></li> `)}
          </ul>
        </nav>
        <main>${sections.map(([id, name, inner]) => section(id, name, inner))}</main>
        ${{ markup: embedRecord(text) }}
      </body>
    </html> `.markup;
}
