/** Water tests of a well: what the laboratory found, beside the published limits, over the years; and what is to be tested next. */
import type { WaterAnswer } from '../../shared/api/due.ts';
import { CAUTIONS } from '../../shared/words/cautions.ts';
import { YARDSTICK_WORDS } from '../../shared/words/water-words.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { BookHead } from '../parts/book-head.tsx';
import { Said } from '../parts/said.tsx';
import { WaterEventForm } from '../parts/water-event.tsx';
import { WaterForm } from '../parts/water-form.tsx';
import { AskMore, WaterTestSheet } from '../parts/water-test.tsx';
import { WaterTrends } from '../parts/water-trends.tsx';
import { bookAddress } from '../page-of.ts';
import { dueWords } from '../words/due.ts';

export function WaterPage({ name }: { name: string }) {
  const { source } = useSurroundings();
  const { state, again } = useAsked(`water ${name}`, () => source.ask('water', { well: name }));
  return (
    <>
      <BookHead well={name} what="water" />
      <Said state={state} what="the water tests" again={again}>
        {(value) => <Water value={value} well={name} changed={again} />}
      </Said>
    </>
  );
}

function Water({ value, well, changed }: { value: WaterAnswer; well: string; changed: () => void }) {
  const { source } = useSurroundings();
  const { next, tests } = value;
  return (
    <>
      {next && (
        <div class={`sheet check is-${next.state}`}>
          <h2>The next test</h2>
          <p class="when">{dueWords(next, value.nowMs)}</p>
          <p>{next.because.join(' ')}</p>
          {value.askFor.length > 0 && next.state !== 'not-needed' && (
            <p>Not tested within a year: {value.askFor.join(', ')}.</p>
          )}
          <p>
            <a class="go" href={bookAddress(well, 'checks')}>
              All checks
            </a>
          </p>
        </div>
      )}
      <p>{CAUTIONS['test-results']}</p>
      {source.live && (
        <section aria-labelledby="enter">
          <h2 id="enter">Write down</h2>
          <WaterForm well={well} value={value} changed={changed} />
          <WaterEventForm well={well} value={value} changed={changed} />
        </section>
      )}
      <section aria-labelledby="tests">
        <h2 id="tests">Tests</h2>
        {tests.length === 0 ? (
          <p class="said">None is written down yet.</p>
        ) : (
          tests.map((test) => (
            <WaterTestSheet key={test.id} test={test} value={value} well={well} changed={changed} />
          ))
        )}
      </section>
      <WaterTrends value={value} />
      <AskMore />
      <p class="doing">{YARDSTICK_WORDS}</p>
    </>
  );
}
