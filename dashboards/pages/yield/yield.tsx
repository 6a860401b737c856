/** Yield tests of a well over the years, and a form for a new one. */
import type { YieldTestsAnswer } from '../../../shared/api/figures/yield-tests.ts';
import { CAUTIONS } from '../../../shared/text/en/cautions.ts';
import { YieldTests } from '../../../shared/view/yield-tests.tsx';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { VoidEntry } from '../../ui/check-history.tsx';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { texts } from './texts.ts';
import { YieldForm } from './yield-form.tsx';

export function YieldPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const { state, reload } = useRequest(`yield ${name}`, () => source.get('yieldTests', { well: name }));
  return (
    <>
      <LogbookHead well={name} page="yield" />
      <p class="lead">{texts().intro}</p>
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => <Content value={value} well={name} changed={reload} />}
      </RequestView>
    </>
  );
}

function Content({ value, well, changed }: { value: YieldTestsAnswer; well: string; changed: () => void }) {
  const { source, units } = useAppContext();
  return (
    <>
      {source.live && (
        <>
          <p>{texts().caution}</p>
          <p class="secondary">{CAUTIONS['well-cap']}</p>
          <details class="more">
            <summary>{texts().enter}</summary>
            <YieldForm well={well} value={value} changed={changed} />
          </details>
        </>
      )}
      <section aria-labelledby="tests">
        <h2 id="tests">{texts().tests}</h2>
        <YieldTests
          tests={value.tests}
          units={units}
          after={({ id }) => id !== undefined && <VoidEntry well={well} id={id} changed={changed} />}
        />
      </section>
    </>
  );
}
