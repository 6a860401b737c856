/** Puts the page together: where data comes from, which units, which page. */
import { render } from 'preact';
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { UnitSystem } from '../shared/quantity/format-quantity.ts';
import { serverSource } from './data/server-source.ts';
import { rememberedUnits, rememberUnits, AppContext } from './data/settings.ts';
import { AlarmPage } from './pages/alarm/alarm.tsx';
import { LOGBOOK_PAGES } from './pages/logbook/logbook-pages.tsx';
import { DuePage } from './pages/due/due.tsx';
import { NodesPage } from './pages/nodes/nodes.tsx';
import { PartPage, PartsPage } from './pages/parts/parts.tsx';
import { WellPage } from './pages/well/well.tsx';
import { WellsPage } from './pages/wells/wells.tsx';
import { Head } from './ui/head.tsx';
import { lazyPage } from './ui/lazy-page.tsx';
import { alarmTitle } from '../shared/text/en/alarm-title.ts';
import { PART_WORDS } from '../shared/text/en/parts/parts.ts';
import { alarmIdParts, type Page } from './page-url.ts';
import { usePage } from './route.ts';
import { nameText } from '../shared/text/en/names.ts';
import { texts } from './texts.ts';

/** Opened seldom: loaded when they are. */
const NewWellPage = lazyPage(async () => (await import('./pages/new-well/new-well.tsx')).NewWellPage);
const RefusedPage = lazyPage(async () => (await import('./pages/refused/refused.tsx')).RefusedPage);

function Stillwell() {
  const page = usePage();
  const [units, setUnits] = useState<UnitSystem>(rememberedUnits);
  const context = useMemo(() => ({ source: serverSource, units }), [units]);
  const main = useRef<HTMLElement>(null);
  const opened = useRef(false);
  const title = titleOf(page);
  useEffect(() => {
    document.title = texts().pageTitle(title);
    // After a change of page, not at the first: who reads by ear starts at the new page's top.
    if (opened.current) main.current?.focus();
    opened.current = true;
    window.scrollTo(0, 0);
  }, [title]);
  const choose = (chosen: UnitSystem): void => {
    rememberUnits(chosen);
    setUnits(chosen);
  };
  return (
    <AppContext.Provider value={context}>
      <Head page={page} units={units} choose={choose} />
      <main id="main" ref={main} tabIndex={-1}>
        <CurrentPage page={page} />
      </main>
      <footer>
        <p>{texts().safetyNote}</p>
      </footer>
    </AppContext.Provider>
  );
}

function titleOf(page: Page): string {
  const { titles } = texts();
  if (page.at === 'part') return PART_WORDS[page.part].name;
  if (page.at === 'well') return nameText(page.well);
  if (page.at === 'logbook') return texts().ofWell(titles[page.logbookPage], nameText(page.well));
  if (page.at !== 'alarm') return titles[page.at];
  const parts = alarmIdParts(page.id);
  return parts ? texts().ofWell(alarmTitle(parts.alarm), nameText(parts.place)) : titles.nowhere;
}

function CurrentPage({ page }: { page: Page }) {
  switch (page.at) {
    case 'wells':
      return <WellsPage />;
    case 'well':
      return <WellPage key={page.well} name={page.well} />;
    case 'logbook': {
      const BookPage = LOGBOOK_PAGES[page.logbookPage];
      return <BookPage key={`${page.well} ${page.logbookPage}`} name={page.well} />;
    }
    case 'alarm':
      return <AlarmPage key={page.id} id={page.id} />;
    case 'parts':
      return <PartsPage />;
    case 'part':
      return <PartPage key={page.part} part={page.part} />;
    case 'new-well':
      return <NewWellPage />;
    case 'due':
      return <DuePage />;
    case 'nodes':
      return <NodesPage />;
    case 'refused':
      return <RefusedPage />;
    case 'nowhere':
      return (
        <>
          <h1>{texts().notFound}</h1>
          <p class="lead">
            <a href="#/">{texts().allWells}</a>
          </p>
        </>
      );
    default:
      return page satisfies never;
  }
}

const root = document.getElementById('page');
if (root) {
  root.replaceChildren();
  render(<Stillwell />, root);
}
