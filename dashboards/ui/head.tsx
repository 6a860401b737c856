/** The top of every page: where one is, where one can go, and the units. */
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import type { Page } from '../page-url.ts';
import { texts } from './texts.ts';

const NAV_LINKS = [
  { at: 'wells', href: '#/' },
  { at: 'parts', href: '#/parts' },
  { at: 'due', href: '#/due' },
  { at: 'nodes', href: '#/nodes' },
  { at: 'refused', href: '#/refused' },
] as const;

export function Head(props: { page: Page; units: UnitSystem; choose: (units: UnitSystem) => void }) {
  const { page, units, choose } = props;
  return (
    <header class="head">
      <a class="skip" href="#main" onClick={skip}>
        {texts().skipToContent}
      </a>
      <a class="name" href="#/">
        Stillwell
      </a>
      <nav aria-label={texts().pages}>
        {NAV_LINKS.map(({ at, href }) => (
          <a key={at} href={href} aria-current={page.at === at ? 'page' : undefined}>
            {texts().navigation[at]}
          </a>
        ))}
      </nav>
      <fieldset class="units">
        <legend class="unseen">{texts().units}</legend>
        <UnitChoice name="us" word={texts().usUnits} units={units} choose={choose} />
        <UnitChoice name="metric" word={texts().metric} units={units} choose={choose} />
      </fieldset>
    </header>
  );
}

function UnitChoice(props: {
  name: UnitSystem;
  word: string;
  units: UnitSystem;
  choose: (units: UnitSystem) => void;
}) {
  const { name, word, units, choose } = props;
  return (
    <label>
      <input type="radio" name="units" checked={units === name} onChange={() => choose(name)} />
      <span>{word}</span>
    </label>
  );
}

/** The address names the page, so the jump is made by hand. */
function skip(event: Event): void {
  event.preventDefault();
  document.getElementById('main')?.focus();
}
