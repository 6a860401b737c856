/**
 * Packs that were refused: counted by reason, and the last ones to look at, for whoever builds or
 * repairs a node.
 */
import { agoWords } from '../../../shared/text/en/time-words.ts';
import type { RefusedAnswer } from '../../../shared/api/server-state.ts';
import { useNow } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { RequestView } from '../../ui/request-view.tsx';
import { texts } from './texts.ts';

export function RefusedPage() {
  const { source } = useAppContext();
  const { state, reload } = useRequest('refused', () => source.get('refused'));
  return (
    <>
      <h1>{texts().title}</h1>
      <p class="lead">{texts().intro}</p>
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => <RefusedPacks value={value} />}
      </RequestView>
    </>
  );
}

function RefusedPacks({ value }: { value: RefusedAnswer }) {
  const now = useNow(10_000);
  if (value.counts.length === 0) return <p class="status">{texts().none}</p>;
  return (
    <>
      <section aria-labelledby="counts">
        <h2 id="counts">{texts().countByReason}</h2>
        <dl class="facts">
          {value.counts.map(({ reason, count, lastMs }) => (
            <div key={reason}>
              <dt>
                <RefusalName name={reason} />
              </dt>
              <dd>{texts().countAndLast(count, agoWords(lastMs, now))}</dd>
            </div>
          ))}
        </dl>
      </section>
      <section aria-labelledby="last">
        <h2 id="last">{texts().latest}</h2>
        {value.last.map((row) => (
          <article class="sheet" key={`${row.atMs}${row.topic}${row.head}`}>
            <h3>
              <RefusalName name={row.reason} />
            </h3>
            <p>
              {row.detail} <code>{row.topic}</code>, {agoWords(row.atMs, now)}.
            </p>
            <pre tabIndex={0} aria-label={texts().firstBytes(row.topic)}>
              {printable(row.head)}
            </pre>
          </article>
        ))}
      </section>
    </>
  );
}

/** What it is called, and its short name on the wire; of another version the latter alone. */
function RefusalName({ name }: { name: string }) {
  const title = texts().titleOf(name);
  return (
    <>
      {title !== undefined && `${title} `}
      <code>{name}</code>
    </>
  );
}

/** The bytes as text, what is no text as dots. */
function printable(base64: string): string {
  // eslint-disable-next-line no-control-regex
  return atob(base64).replaceAll(/[^\x20-\x7e\n]/g, '·');
}
