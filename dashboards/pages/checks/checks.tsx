/**
 * The checks of a well: what is due when and why, how to look, what was done over the years, and a
 * calendar to subscribe to.
 */
import type { CheckRowAnswer, ChecksAnswer } from '../../../shared/api/due.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { isOccasionList } from '../../../shared/text/en/checks/due-words.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { CheckDone } from '../../ui/check-done.tsx';
import { CheckHistory } from '../../ui/check-history.tsx';
import { CheckPlan, CustomCheckForm } from './check-plan.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { Subscribe } from '../../ui/subscribe.tsx';
import { logbookUrl } from '../../page-url.ts';
import { datesInWords, dueWords, targetWords } from '../../words/due.ts';
import { texts } from './texts.ts';

export function ChecksPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const { state, reload } = useRequest(`checks ${name}`, () => source.get('checks', { well: name }));
  return (
    <>
      <LogbookHead well={name} page="checks" />
      <p class="lead">{texts().intro}</p>
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => <Checks value={value} well={name} changed={reload} />}
      </RequestView>
    </>
  );
}

interface ChecksProps {
  value: ChecksAnswer;
  well: string;
  changed: () => void;
}

function Checks({ value, well, changed }: ChecksProps) {
  const dated = value.checks.filter(({ dueDate, state }) => dueDate !== undefined || state === 'on-hold');
  const notRecorded = value.checks.filter(({ state }) => state === 'not-recorded');
  const others = value.checks.filter((check) => !dated.includes(check) && !notRecorded.includes(check));
  const lists = others.filter(({ check, state }) => state === 'not-needed' && isOccasionList(check));
  const rest = others.filter((check) => !lists.includes(check));
  return (
    <>
      {dated.map((check) => (
        <Check key={check.check} check={check} value={value} well={well} changed={changed} />
      ))}
      {notRecorded.length > 0 && (
        <section aria-labelledby="not-recorded">
          <h2 id="not-recorded">{texts().notRecorded}</h2>
          <p>{texts().notRecordedHelp}</p>
          {notRecorded.map((check) => (
            <Check key={check.check} check={check} value={value} well={well} changed={changed} />
          ))}
        </section>
      )}
      <section aria-labelledby="own">
        <h2 id="own">{texts().ownCheck}</h2>
        <CustomCheckForm well={well} value={value} changed={changed} />
      </section>
      <Subscribe well={well} />
      {lists.length > 0 && (
        <section aria-labelledby="lists">
          <h2 id="lists">{texts().lists}</h2>
          {lists.map((check) => (
            <Check key={check.check} check={check} value={value} well={well} changed={changed} />
          ))}
        </section>
      )}
      {rest.length > 0 && (
        <section aria-labelledby="rest">
          <h2 id="rest">{texts().notScheduled}</h2>
          {rest.map((check) => (
            <Check key={check.check} check={check} value={value} well={well} changed={changed} />
          ))}
        </section>
      )}
    </>
  );
}

function Check({ check, value, well, changed }: ChecksProps & { check: CheckRowAnswer }) {
  const { units } = useAppContext();
  const target = targetWords(check.target, units);
  return (
    <article class={`sheet check is-${check.state}`} aria-labelledby={`check-${check.check}`}>
      <h2 id={`check-${check.check}`}>{check.title}</h2>
      {!(check.state === 'not-needed' && isOccasionList(check.check)) && (
        <p class="when">{dueWords(check, value.nowMs)}</p>
      )}
      <p>{datesInWords(check.reasons.join(' '), value.nowMs)}</p>
      {check.text !== undefined && <p>{check.text}</p>}
      {target !== undefined && (
        <p>
          {texts().target} <strong>{target}</strong>
        </p>
      )}
      {check.target && (
        <p class="secondary">
          {CAUTIONS.precharge} {CAUTIONS['tank-pressure']}
        </p>
      )}
      {check.location !== undefined && <p>{texts().location(check.location)}</p>}
      {(check.how.length > 0 || check.why !== undefined) && <CheckInstructions check={check} />}
      {check.check === 'water-test' ? (
        <p>
          <a class="go" href={logbookUrl(well, 'water')}>
            {texts().openWater}
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

function CheckInstructions({ check }: { check: CheckRowAnswer }) {
  return (
    <details class="more">
      <summary>{texts().details}</summary>
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
      {check.source !== undefined && <p class="secondary">{check.source}</p>}
    </details>
  );
}
