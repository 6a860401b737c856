/**
 * The card of a well: what is odd about it, what was measured beside it, the form to change it, and
 * who changed what.
 */
import type { Answer } from '../../../shared/api/routes.ts';
import type { CardComparison } from '../../../shared/api/card-comparison.ts';
import { cardChanges } from '../../../shared/card/changes.ts';
import { fieldLabel } from '../../../shared/card/fields.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { comparisonText, switchComparisonText } from '../../../shared/text/en/checks/measured-text.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { CardForm } from './card-form.tsx';
import { CardHistory } from './card-history.tsx';
import { WrittenCard } from '../../../shared/view/written-card.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { withNonBreakingUnits } from '../../../shared/text/en/names.ts';
import { texts } from './texts.ts';

export function CardPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const card = useRequest(`card ${name}`, () => source.get('card', { well: name }));
  const acts = useRequest(`acts ${name}`, () => source.get('wellActs', { well: name }));
  return (
    <>
      <LogbookHead well={name} page="card" />
      <RequestView state={card.state} subject={texts().subject} reload={card.reload}>
        {(answer) => (
          <>
            <LastChanged answer={answer} />
            <Questions answer={answer} />
            <Measured measured={answer.measured} />
            <section aria-labelledby="written">
              <h2 id="written">{texts().onTheCard}</h2>
              <div class={source.live ? 'on-paper' : ''}>
                <WrittenCard card={answer.card} />
              </div>
              {source.live && (
                <>
                  <p class="secondary off-paper">{texts().howToFillIn}</p>
                  <CardForm
                    well={name}
                    answer={answer}
                    saved={(next) => {
                      card.update(() => next);
                      acts.reload();
                    }}
                  />
                </>
              )}
            </section>
            <section aria-labelledby="history">
              <h2 id="history">{texts().history}</h2>
              <RequestView state={acts.state} subject={texts().historySubject} reload={acts.reload}>
                {(value) => <CardHistory changes={cardChanges(value.acts)} timeZone={timeZoneOf(answer)} />}
              </RequestView>
            </section>
          </>
        )}
      </RequestView>
    </>
  );
}

function timeZoneOf({ card }: Answer<'card'>): string {
  const zone = card['timeZone'];
  return typeof zone === 'string' ? zone : 'UTC';
}

function LastChanged({ answer }: { answer: Answer<'card'> }) {
  const { units } = useAppContext();
  const { atMs, by } = answer;
  if (atMs === undefined) return <p class="lead">{texts().emptyCard}</p>;
  return <p class="lead">{texts().lastChanged(momentWords(atMs, timeZoneOf(answer), units, nowMs()), by)}</p>;
}

function Questions({ answer }: { answer: Answer<'card'> }) {
  const { units } = useAppContext();
  if (answer.questions.length === 0) return null;
  return (
    <section aria-labelledby="odd" class="sheet">
      <h2 id="odd">{texts().isThisRight}</h2>
      <p class="secondary">{texts().unusual}</p>
      <ul>
        {answer.questions.map(({ key, question, metric }) => (
          <li key={key + question}>{withNonBreakingUnits(units === 'us' ? question : metric)}</li>
        ))}
      </ul>
    </section>
  );
}

function Measured({ measured }: { measured: readonly CardComparison[] }) {
  const { units } = useAppContext();
  if (measured.length === 0) return null;
  const points = switchComparisonText(measured, units);
  const differs = (keys: string[]): boolean =>
    measured.some(({ key, differs }) => keys.includes(key) && differs === true);
  const each = measured.filter(({ key }) => points === undefined || !/^switch\.cut(In|Out)$/.test(key));
  return (
    <section aria-labelledby="measured">
      <h2 id="measured">{texts().cardAndMeasured}</h2>
      <ul class="measured">
        {points !== undefined && (
          <MeasuredLine
            label={texts().pressureSwitch}
            words={points}
            differs={differs(['switch.cutIn', 'switch.cutOut'])}
          />
        )}
        {each.map((one) => (
          <MeasuredLine
            key={one.key}
            label={fieldLabel(one.key)}
            words={comparisonText(one, units)}
            differs={differs([one.key])}
          />
        ))}
      </ul>
    </section>
  );
}

function MeasuredLine({ label, words, differs }: { label: string; words: string; differs: boolean }) {
  return (
    <li>
      <span class="secondary">{label}:</span> {withNonBreakingUnits(words)}
      {differs && <b class="off"> {texts().differ}</b>}
    </li>
  );
}
