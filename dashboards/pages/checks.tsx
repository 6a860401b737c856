/** The checks of a well: what is due when and why, how to look, what was done over the years, and a calendar to subscribe to. */
import type { CheckRowAnswer, ChecksAnswer } from '../../shared/api/due.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { BookHead } from '../parts/book-head.tsx';
import { CheckDone } from '../parts/check-done.tsx';
import { CheckHistory } from '../parts/check-history.tsx';
import { CheckPlan, OwnCheck } from '../parts/check-plan.tsx';
import { Said } from '../parts/said.tsx';
import { Subscribe } from '../parts/subscribe.tsx';
import { bookAddress } from '../page-of.ts';
import { datesInWords, dueWords, targetWords } from '../words/due.ts';

export function ChecksPage({ name }: { name: string }) {
  const { source } = useSurroundings();
  const { state, again } = useAsked(`checks ${name}`, () => source.ask('checks', { well: name }));
  return (
    <>
      <BookHead well={name} what="checks" />
      <p class="lead">What comes round on this well, when and why; and what was found, over the years.</p>
      <Said state={state} what="the checks" again={again}>
        {(value) => <Checks value={value} well={name} changed={again} />}
      </Said>
    </>
  );
}

interface Of {
  value: ChecksAnswer;
  well: string;
  changed: () => void;
}

function Checks({ value, well, changed }: Of) {
  const dated = value.checks.filter(({ on, state }) => on !== undefined || state === 'waits');
  const unwritten = value.checks.filter(({ state }) => state === 'unwritten');
  const rest = value.checks.filter((check) => !dated.includes(check) && !unwritten.includes(check));
  return (
    <>
      {dated.map((check) => (
        <Check key={check.check} check={check} value={value} well={well} changed={changed} />
      ))}
      {unwritten.length > 0 && (
        <section aria-labelledby="unwritten">
          <h2 id="unwritten">Nobody wrote down when these were last done</h2>
          <p>
            So nobody knows whether they are late. Whoever knows a day writes it down with that day; the
            others can be done in one visit. A proposed day is a proposal, and none of them is counted as
            overdue.
          </p>
          {unwritten.map((check) => (
            <Check key={check.check} check={check} value={value} well={well} changed={changed} />
          ))}
        </section>
      )}
      <section aria-labelledby="own">
        <h2 id="own">A check of your own</h2>
        <OwnCheck well={well} value={value} changed={changed} />
      </section>
      <Subscribe well={well} />
      {rest.length > 0 && (
        <section aria-labelledby="rest">
          <h2 id="rest">Put off, done for good, or not needed here</h2>
          {rest.map((check) => (
            <Check key={check.check} check={check} value={value} well={well} changed={changed} />
          ))}
        </section>
      )}
    </>
  );
}

function Check({ check, value, well, changed }: Of & { check: CheckRowAnswer }) {
  const { units } = useSurroundings();
  const target = targetWords(check.target, units);
  return (
    <article class={`sheet check is-${check.state}`} aria-labelledby={`check-${check.check}`}>
      <h2 id={`check-${check.check}`}>{check.title}</h2>
      <p class="when">{dueWords(check, value.nowMs)}</p>
      <p>{datesInWords(check.because.join(' '), value.nowMs)}</p>
      {check.text !== undefined && <p>{check.text}</p>}
      {target !== undefined && (
        <p>
          Target: <strong>{target}</strong>
        </p>
      )}
      {check.target && (
        <p class="doing">
          {CAUTIONS.precharge} {CAUTIONS['tank-pressure']}
        </p>
      )}
      {check.where !== undefined && <p>Where: {check.where}.</p>}
      {(check.how.length > 0 || check.why !== undefined) && <How check={check} />}
      {check.check === 'water-test' ? (
        <p>
          <a class="go" href={bookAddress(well, 'water')}>
            Enter results, and see them over the years
          </a>
        </p>
      ) : (
        <CheckDone check={check} value={value} well={well} changed={changed} />
      )}
      <CheckHistory check={check} value={value} well={well} changed={changed} />
      <CheckPlan check={check} value={value} well={well} changed={changed} />
    </article>
  );
}

function How({ check }: { check: CheckRowAnswer }) {
  return (
    <details class="more">
      <summary>Why, and how to look</summary>
      {check.why !== undefined && <p>{check.why}</p>}
      <ol class="steps">
        {check.how.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      {check.cautions.length > 0 && (
        <ul class="cautions">
          {check.cautions.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      )}
      {check.source !== undefined && <p class="doing">{check.source}</p>}
    </details>
  );
}
