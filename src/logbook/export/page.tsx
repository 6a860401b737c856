/**
 * The page of an export: all that is known of a well in one HTML file, for whoever has the well
 * next. It needs no server, no network and no script; it is dated by the newest thing in it. The
 * record that it was made from stands in it as data. Its parts are the components of the pages.
 */
import type { ComponentType } from 'preact';
import { renderToStaticMarkup } from 'preact-render-to-string';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { USE_WORDS } from '../../../shared/text/en/logbook/uses.ts';
import { nameText } from '../../../shared/text/en/names.ts';
import { EXPORT_FILE_TEXT as TEXT } from '../../../shared/text/en/pages/export-file.ts';
import type { UnitSystem } from '../../../shared/quantity/format-quantity.ts';
import { YieldTests } from '../../../shared/view/yield-tests.tsx';
import { yieldTests } from '../figures/yield-tests.ts';
import { SectionFigure } from '../../../shared/view/section-figure.tsx';
import { readCard } from '../../core/domain/read-card.ts';
import { sectionFacts, unitsOfCard } from '../visits/section-facts.ts';
import { AlarmsSection } from './alarms-section.tsx';
import { CardSection } from './card-section.tsx';
import { ChecksSection } from './checks-section.tsx';
import { newExportContext, type ExportContext } from './context.ts';
import { DocumentsSection } from './documents-section.tsx';
import { ActsSection, NotesSection } from './entries-section.tsx';
import { NormalSection, ReadingsSection } from './readings-section.tsx';
import { lastCard, type WellRecord } from './record.ts';
import { TrendsSection } from './trends-section.tsx';
import { VisitsSection } from './visits-section.tsx';
import { WaterSection } from './water-section.tsx';
import { RECORD_BLOCK, recordData } from './zip/embed.ts';

export interface PageInput {
  record: WellRecord;
  /** The record as text: what is embedded. */
  text: string;
  /** How the page looks. */
  style: string;
  /** Hashes of the documents that are at hand. */
  availableDocuments: ReadonlySet<string>;
  /** Those of the card where not given. */
  units?: UnitSystem;
}

export function exportPage({ record, text, style, availableDocuments, units }: PageInput): string {
  const written = lastCard(record)?.card;
  const read = written === undefined ? undefined : readCard(written);
  const card = read && 'card' in read ? read.card : undefined;
  const context = newExportContext(record, {
    card,
    availableDocuments,
    units: units ?? unitsOfCard(written),
  });
  const page = <Page context={context} text={text} style={style} />;
  return `<!doctype html>\n${renderToStaticMarkup(page)}\n`;
}

const SECTIONS: Record<keyof typeof TEXT.sections, ComponentType<ExportContext>> = {
  section: ({ card, record, units }) => (
    <SectionFigure facts={sectionFacts(card, record.entries, units)} units={units} />
  ),
  card: CardSection,
  readings: ReadingsSection,
  normal: NormalSection,
  trends: TrendsSection,
  alarms: AlarmsSection,
  checks: ChecksSection,
  water: WaterSection,
  yield: ({ entries, card, timeZone, units }) => (
    <YieldTests tests={yieldTests(entries, { timeZone, ...card })} units={units} />
  ),
  visits: VisitsSection,
  acts: ActsSection,
  notes: NotesSection,
  papers: DocumentsSection,
  data: DataSection,
};

function DataSection({ record }: ExportContext) {
  const { acts, entries, baselines, days, cycles, alarms } = record;
  const { counts: words } = TEXT.data;
  const counts = [
    words.acts(acts.length),
    words.entries(entries.length),
    words.baselines(baselines.length),
    words.days(days.length),
    words.cycles(cycles.length),
    words.alarms(alarms.length),
  ];
  return (
    <p>
      {TEXT.data.intro(counts.join(', '))} <code>{TEXT.data.command}</code>
    </p>
  );
}

function Page({ context, text, style }: { context: ExportContext; text: string; style: string }) {
  const { record, card, newestMs, timeZone, day } = context;
  const name = nameText(record.well);
  const uses = card?.uses.map((use) => USE_WORDS[use]).join(', ') ?? '';
  const sections = Object.entries(TEXT.sections) as [keyof typeof SECTIONS, string][];
  return (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'" />
        <title>{TEXT.title(name)}</title>
        {/* Styles are no text of ours to escape: a reader of HTML takes them as they stand. */}
        <style dangerouslySetInnerHTML={{ __html: style }} />
      </head>
      <body class="file">
        <header>
          <h1>{name}</h1>
          <p>
            {card?.site !== undefined && TEXT.place(nameText(card.site))}
            {uses !== '' && TEXT.use(uses)}
            {TEXT.coverage(newestMs === 0 ? undefined : day(newestMs))}
            {TEXT.zone(timeZone)}
          </p>
          <ul class="cautions">
            {(['only-watches', 'lock-out', 'electrician'] as const).map((caution) => (
              <li key={caution}>{CAUTIONS[caution]}</li>
            ))}
          </ul>
        </header>
        <nav aria-label={TEXT.contents}>
          <ul>
            {sections.map(([id, title]) => (
              <li key={id}>
                <a href={`#${id}`}>{title}</a>
              </li>
            ))}
          </ul>
        </nav>
        <main>
          {sections.map(([id, title]) => {
            const Section = SECTIONS[id];
            return (
              <section key={id} id={id}>
                <h2>{title}</h2>
                <Section {...context} />
              </section>
            );
          })}
        </main>
        <script {...RECORD_BLOCK} dangerouslySetInnerHTML={{ __html: recordData(text) }} />
      </body>
    </html>
  );
}
