/**
 * Water tests of a well: what the laboratory found, beside the published limits, over the years;
 * and what is to be tested next.
 */
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { YARDSTICK_NOTE } from '../../../shared/text/en/water-words.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { WaterEventForm } from './water-event.tsx';
import { WaterForm } from './water-form.tsx';
import { WaterTestSheet } from '../../../shared/view/water-test.tsx';
import { MoreTests } from './more-tests.tsx';
import { VoidEntry } from '../../ui/check-history.tsx';
import { DocumentLinks } from '../../ui/photo-field.tsx';
import type { WaterAnswer, WaterTestAnswer } from '../../../shared/api/due.ts';
import { WaterTrends } from './water-trends.tsx';
import { logbookUrl } from '../../page-url.ts';
import { datesInWords, dayWords, dueWords } from '../../words/due.ts';
import { texts } from './texts.ts';

export function WaterPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const { state, reload } = useRequest(`water ${name}`, () => source.get('water', { well: name }));
  return (
    <>
      <LogbookHead well={name} page="water" />
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => <Water value={value} well={name} changed={reload} />}
      </RequestView>
    </>
  );
}

function Water({ value, well, changed }: { value: WaterAnswer; well: string; changed: () => void }) {
  const { source } = useAppContext();
  const { next, tests } = value;
  const [last, ...earlier] = tests;
  return (
    <>
      {next && (
        <div class={`sheet check is-${next.state}`}>
          <h2>{texts().nextTest}</h2>
          <p class="when">{dueWords(next, value.nowMs)}</p>
          <p>{datesInWords(next.reasons.join(' '), value.nowMs)}</p>
          {value.missingYearly.length > 0 && next.state !== 'not-needed' && (
            <p>{texts().missingYearly(value.missingYearly.join(', '))}</p>
          )}
          <p>
            <a class="go" href={logbookUrl(well, 'checks')}>
              {texts().allChecks}
            </a>
          </p>
        </div>
      )}
      <p>{CAUTIONS['test-results']}</p>
      {source.live && (
        <section aria-labelledby="enter">
          <h2 id="enter">{texts().record}</h2>
          <WaterForm well={well} value={value} changed={changed} />
          <WaterEventForm well={well} value={value} changed={changed} />
        </section>
      )}
      <section aria-labelledby="tests">
        <h2 id="tests">{texts().latestTest}</h2>
        {last === undefined ? (
          <p class="status">{texts().none}</p>
        ) : (
          <Test test={last} value={value} well={well} changed={changed} />
        )}
      </section>
      <WaterTrends value={value} />
      {earlier.length > 0 && (
        <section aria-labelledby="earlier">
          <h2 id="earlier">{texts().earlierTests}</h2>
          {earlier.map((test) => (
            <details key={test.id} class="more">
              <summary>
                {dayWords(test.sampleDate, value.nowMs)}{' '}
                <span class="likely">{texts().results(test.results.length)}</span>
              </summary>
              <Test test={test} value={value} well={well} changed={changed} />
            </details>
          ))}
        </section>
      )}
      <MoreTests />
      <p class="secondary">{YARDSTICK_NOTE}</p>
    </>
  );
}

function Test(props: { test: WaterTestAnswer; value: WaterAnswer; well: string; changed: () => void }) {
  const { test, value, well, changed } = props;
  return (
    <WaterTestSheet
      test={test}
      day={(date) => dayWords(date, value.nowMs)}
      documents={<DocumentLinks documents={test.documents} />}
    >
      <VoidEntry well={well} id={test.id} changed={changed} />
    </WaterTestSheet>
  );
}
