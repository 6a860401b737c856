/** The card of a well: what is odd about it, what was measured beside it, the form to change it, and who changed what. */
import type { Answer } from '../../shared/api/routes.ts';
import type { Beside } from '../../shared/api/measured.ts';
import { changesOf } from '../../shared/card/changes.ts';
import { labelOf, nameOf } from '../../shared/card/fields.ts';
import { flatten } from '../../shared/card/flat.ts';
import { momentWords } from '../../shared/api/time-words.ts';
import { besideWords, switchWords } from '../../shared/words/measured.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { BookHead } from '../parts/book-head.tsx';
import { CardForm } from '../parts/card-form.tsx';
import { CardHistory } from '../parts/card-history.tsx';
import { Facts } from '../parts/facts.tsx';
import { Said } from '../parts/said.tsx';
import { digestOf, pumpsOf, sectionsOf, typedOf } from '../words/card-form.ts';
import { unbroken } from '../../shared/words/names.ts';

export function CardPage({ name }: { name: string }) {
  const { source } = useSurroundings();
  const card = useAsked(`card ${name}`, () => source.ask('card', { well: name }));
  const acts = useAsked(`acts ${name}`, () => source.ask('wellActs', { well: name }));
  return (
    <>
      <BookHead well={name} what="card" />
      <Said state={card.state} what="the card" again={card.again}>
        {(answer) => (
          <>
            <LastChanged answer={answer} />
            <Questions answer={answer} />
            <Measured measured={answer.measured} />
            <section aria-labelledby="written">
              <h2 id="written">What is written</h2>
              <div class={source.live ? 'on-paper' : ''}>
                <Written card={answer.card} />
              </div>
              {source.live && (
                <>
                  <p class="doing off-paper">
                    Fill in what you know and leave the rest; write quantities with their unit, as they stand
                    in the papers.
                  </p>
                  <CardForm
                    well={name}
                    answer={answer}
                    saved={(next) => {
                      card.put(() => next);
                      acts.again();
                    }}
                  />
                </>
              )}
            </section>
            <section aria-labelledby="history">
              <h2 id="history">Who changed what</h2>
              <Said state={acts.state} what="its history" again={acts.again}>
                {(value) => <CardHistory changes={changesOf(value.acts)} timeZone={zoneOf(answer)} />}
              </Said>
            </section>
          </>
        )}
      </Said>
    </>
  );
}

function zoneOf({ card }: Answer<'card'>): string {
  const zone = card['timeZone'];
  return typeof zone === 'string' ? zone : 'UTC';
}

function LastChanged({ answer }: { answer: Answer<'card'> }) {
  const { units } = useSurroundings();
  const { atMs, by } = answer;
  if (atMs === undefined) return <p class="lead">Nobody has written this card yet.</p>;
  return (
    <p class="lead">
      Last changed {by === undefined ? '' : `by ${by} `}on {momentWords(atMs, zoneOf(answer), units, nowMs())}
      .
    </p>
  );
}

function Questions({ answer }: { answer: Answer<'card'> }) {
  const { units } = useSurroundings();
  if (answer.questions.length === 0) return null;
  return (
    <section aria-labelledby="odd" class="sheet">
      <h2 id="odd">Is this right?</h2>
      <p class="doing">It was kept as it was written. It may be right; it is only unusual.</p>
      <ul>
        {answer.questions.map(({ key, question, metric }) => (
          <li key={key + question}>{unbroken(units === 'us' ? question : metric)}</li>
        ))}
      </ul>
    </section>
  );
}

function Measured({ measured }: { measured: readonly Beside[] }) {
  const { units } = useSurroundings();
  if (measured.length === 0) return null;
  const points = switchWords(measured, units);
  const off = (keys: string[]): boolean =>
    measured.some(({ key, differs }) => keys.includes(key) && differs === true);
  const each = measured.filter(({ key }) => points === undefined || !/^switch\.cut(In|Out)$/.test(key));
  return (
    <section aria-labelledby="measured">
      <h2 id="measured">Written, and measured</h2>
      <ul class="measured">
        {points !== undefined && (
          <MeasuredLine label="Pressure switch" words={points} off={off(['switch.cutIn', 'switch.cutOut'])} />
        )}
        {each.map((one) => (
          <MeasuredLine
            key={one.key}
            label={labelOf(one.key)}
            words={besideWords(one, units)}
            off={off([one.key])}
          />
        ))}
      </ul>
    </section>
  );
}

function MeasuredLine({ label, words, off }: { label: string; words: string; off: boolean }) {
  return (
    <li>
      <span class="doing">{label}:</span> {unbroken(words)}
      {off && <b class="off"> They differ.</b>}
    </li>
  );
}

/** On paper and in a written-out copy, where nothing can be told: only what is filled in. */
function Written({ card }: { card: Answer<'card'>['card'] }) {
  const flat = flatten(card);
  const typed = typedOf(flat);
  return (
    <>
      {sectionsOf(flat, pumpsOf(flat)).map((section) => {
        const facts = section.fields.flatMap((field): [string, string][] => {
          const text = digestOf({ title: '', parts: [], fields: [field] }, typed);
          return text === '' ? [] : [[nameOf(field.field), text]];
        });
        return facts.length === 0 ? null : (
          <div key={section.title}>
            <h3>{section.title}</h3>
            <Facts facts={facts} />
          </div>
        );
      })}
    </>
  );
}
