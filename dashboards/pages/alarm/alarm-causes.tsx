/**
 * The causes of an alarm as a technician would go through them: what it most likely is and why,
 * what else, and how to tell.
 */
import type { AlarmAnswer } from '../../../shared/api/alarms.ts';
import { CAUSE_PARTS } from '../../../shared/text/en/causes/cause-parts.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { distinguishingChecks } from '../../../shared/text/en/causes/distinguishing-checks.ts';
import { useEffect, useRef } from 'preact/hooks';
import { useAppContext } from '../../data/settings.ts';
import { causeLines, type CauseLine } from '../../words/alarm.ts';
import { Cautions } from '../../ui/alarm-card.tsx';
import { PartLinks } from '../../ui/part-links.tsx';
import { texts } from './texts.ts';

/** The first cause in full, the others to be opened. */
export function Causes({ alarm }: { alarm: AlarmAnswer }) {
  const { units } = useAppContext();
  const section = useRef<HTMLElement>(null);
  // Paper can't be opened: what is printed is all there.
  useEffect(() => {
    const open = (): void => section.current?.querySelectorAll('details').forEach((one) => (one.open = true));
    window.addEventListener('beforeprint', open);
    return () => window.removeEventListener('beforeprint', open);
  }, []);
  const [first, ...others] = causeLines(alarm, units);
  if (!first) return null;
  return (
    <section aria-labelledby="causes" ref={section}>
      <h2 id="causes">{texts().mostLikelyCause}</h2>
      <div class="sheet">
        <h3>
          {first.names} <span class="likely">{first.likely}</span>
        </h3>
        <CauseBody line={first} />
        <p>
          <strong>{texts().thenDo}</strong> {CAUSE_WORDS[first.causes[0]!].firstStep}
        </p>
      </div>
      {others.length > 0 && (
        <>
          <h3 class="spaced">{texts().otherCauses}</h3>
          {others.map((line) => (
            <details class="more" key={line.names}>
              <summary>
                {line.names} <span class="likely">{line.likely}</span>
              </summary>
              <CauseBody line={line} />
              <p>
                <strong>{texts().thenDo}</strong> {CAUSE_WORDS[line.causes[0]!].firstStep}
              </p>
              <Cautions cautions={CAUSE_WORDS[line.causes[0]!].cautions} />
            </details>
          ))}
        </>
      )}
    </section>
  );
}

function CauseBody({ line }: { line: CauseLine }) {
  return (
    <>
      <p>{line.what}</p>
      <dl class="reasons">
        <Reasons name={texts().evidenceFor} sentences={line.for} />
        <Reasons name={texts().evidenceAgainst} sentences={line.against} />
        <Reasons name={texts().signs} sentences={[line.lookFor]} />
        <Reasons name={texts().excludedIf} sentences={[line.notIf]} />
        {line.distinguishedBy !== undefined && (
          <Reasons name={texts().lookAlikes} sentences={[texts().toTellApart(line.distinguishedBy)]} />
        )}
      </dl>
      <PartLinks lead={texts().partsHelp} parts={line.causes.flatMap((cause) => CAUSE_PARTS[cause])} />
    </>
  );
}

function Reasons({ name, sentences }: { name: string; sentences: readonly string[] }) {
  if (sentences.length === 0) return null;
  return (
    <div>
      <dt>{name}</dt>
      {sentences.map((one) => (
        <dd key={one}>{one}</dd>
      ))}
    </div>
  );
}

export function DistinguishingChecks({ alarm }: { alarm: AlarmAnswer }) {
  const checks = distinguishingChecks(alarm.causes);
  if (checks.length === 0) return null;
  return (
    <section aria-labelledby="apart">
      <h2 id="apart">{texts().howToTellApart}</h2>
      <ul class="steps">
        {checks.map(({ how }) => (
          <li key={how}>{how}</li>
        ))}
      </ul>
      <Cautions cautions={[...new Set(checks.flatMap(({ cautions }) => cautions ?? []))]} />
    </section>
  );
}
