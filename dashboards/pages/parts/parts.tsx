/**
 * The parts of a well's system explained: all of them in a list, and each on a page of its own that
 * prints as a sheet.
 */
import { CAUSE_PARTS } from '../../../shared/text/en/causes/cause-parts.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { CAUSES } from '../../../shared/text/en/alarms/kinds.ts';
import { PARTS, type Part } from '../../../shared/text/en/parts/part-words.ts';
import { PART_WORDS } from '../../../shared/text/en/parts/parts.ts';
import { partUrl } from '../../page-url.ts';
import { Cautions } from '../../ui/alarm-card.tsx';
import { texts } from './texts.ts';

export function PartsPage() {
  return (
    <>
      <h1>{texts().title}</h1>
      <p class="lead">{texts().intro}</p>
      <ul class="logbook-links">
        {PARTS.map((part) => (
          <li key={part}>
            <a href={partUrl(part)}>{PART_WORDS[part].name}</a>
          </li>
        ))}
      </ul>
    </>
  );
}

export function PartPage({ part }: { part: Part }) {
  const { name, purpose, failure, questions, cautions } = PART_WORDS[part];
  return (
    <>
      <p class="back">
        <a href="#/parts">{texts().allParts}</a>
      </p>
      <h1>{name}</h1>
      <section aria-labelledby="does">
        <h2 id="does">{texts().purpose}</h2>
        <p class="lead">{purpose}</p>
      </section>
      <section aria-labelledby="fails">
        <h2 id="fails">{texts().failure}</h2>
        <p>{failure}</p>
        <PartCauses part={part} />
      </section>
      <section aria-labelledby="ask">
        <h2 id="ask">{texts().questions}</h2>
        <ul class="steps">
          {questions.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      </section>
      <section aria-labelledby="cautions">
        <h2 id="cautions">{texts().cautions}</h2>
        <Cautions
          cautions={[...cautions, ...(cautions.includes('local-rules') ? [] : (['local-rules'] as const))]}
        />
      </section>
    </>
  );
}

/** The causes of alarms that are about it. */
function PartCauses({ part }: { part: Part }) {
  const causes = CAUSES.filter((cause) => CAUSE_PARTS[cause].includes(part));
  if (causes.length === 0) return null;
  return (
    <p class="secondary">
      {texts().causes(causes.map((cause) => CAUSE_WORDS[cause].name.toLowerCase()).join(', '))}
    </p>
  );
}
