/** The top of every page: where one is, where one can go, and the units. */
import type { UnitSystem } from '../../shared/quantity/format-quantity.ts';
import type { Page } from '../page-url.ts';

const NAV_LINKS = [
  { at: 'wells', href: '#/', word: 'Wells' },
  { at: 'parts', href: '#/parts', word: 'Parts' },
  { at: 'due', href: '#/due', word: 'Due' },
  { at: 'nodes', href: '#/nodes', word: 'Nodes' },
  { at: 'refused', href: '#/refused', word: 'Refused packs' },
] as const;

export function Head(props: { page: Page; units: UnitSystem; choose: (units: UnitSystem) => void }) {
  const { page, units, choose } = props;
  return (
    <header class="head">
      <a class="skip" href="#main" onClick={skip}>
        To the content
      </a>
      <a class="name" href="#/">
        Stillwell
      </a>
      <nav aria-label="Pages">
        {NAV_LINKS.map(({ at, href, word }) => (
          <a key={at} href={href} aria-current={page.at === at ? 'page' : undefined}>
            {word}
          </a>
        ))}
      </nav>
      <fieldset class="units">
        <legend class="unseen">Units</legend>
        <UnitChoice name="us" word="US units" units={units} choose={choose} />
        <UnitChoice name="metric" word="Metric" units={units} choose={choose} />
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
