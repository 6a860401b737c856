/**
 * One alarm, in the order in which a good technician would speak: what is seen and since when, what to do first, what it most likely is and
 * why, what else it may be and how to tell, when this can be wrong, and what to have ready. It prints as a sheet to hand over.
 */
import { useEffect } from 'preact/hooks';
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { alarmTitle } from '../../shared/api/alarm-title.ts';
import { momentWords } from '../../shared/api/time-words.ts';
import { isSymptom } from '../../shared/api/well-words.ts';
import type { WellDetail } from '../../shared/api/wells.ts';
import { CAUSE_WORDS } from '../../shared/words/cause-words.ts';
import type { Caution } from '../../shared/words/cautions.ts';
import { readClues } from '../../shared/words/clues.ts';
import { figureLines } from '../../shared/words/figures.ts';
import { alarmWords } from '../../shared/words/forms.ts';
import { URGENCY_WORDS, urgencyOf } from '../../shared/words/urgency.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { PutAside, Seen } from '../parts/alarm-acts.tsx';
import { Cautions, SeenWith, sentence, symptomsOf } from '../parts/alarm-card.tsx';
import { Causes, TellingApart } from '../parts/alarm-causes.tsx';
import { Facts } from '../parts/facts.tsx';
import { Mark } from '../parts/mark.tsx';
import { Said } from '../parts/said.tsx';
import { alarmAddress, alarmIdParts, wellAddress } from '../page-of.ts';
import { nameWords, unbroken } from '../../shared/words/names.ts';
import { readyFor } from '../words/ready.ts';

export function AlarmPage({ id }: { id: string }) {
  const { source } = useSurroundings();
  const parts = alarmIdParts(id);
  const place = parts?.place ?? '';
  const alarms = useAsked(`alarm ${id}`, () =>
    source.ask('alarms', { well: place, from: parts?.sinceMs ?? 0 }),
  );
  const detail = useAsked(`well ${place}`, () => source.ask('well', { well: place }));
  const again = (): void => {
    alarms.again();
    detail.again();
  };
  useEffect(
    () =>
      source.listen(
        undefined,
        (message) => {
          if (message.event === 'again' || message.event === 'alarm') again();
        },
        () => undefined,
      ),
    [source, id],
  );
  return (
    <Said state={alarms.state} what="this alarm" again={again}>
      {({ alarms: all }) => {
        const alarm = all.find((one) => one.id === id);
        if (!alarm) return <NoSuch />;
        // Of a whole site there is no well to show.
        return detail.state.is === 'loading' ? (
          <p class="said" role="status">
            Fetching its well …
          </p>
        ) : (
          <AlarmBody
            alarm={alarm}
            detail={detail.state.is === 'ready' && alarm.well !== undefined ? detail.state.value : undefined}
            changed={again}
          />
        );
      }}
    </Said>
  );
}

function NoSuch() {
  return (
    <>
      <h1>There is no such alarm</h1>
      <p class="lead">
        <a href="#/">All wells</a> are here.
      </p>
    </>
  );
}

interface BodyProps {
  alarm: AlarmAnswer;
  detail: WellDetail | undefined;
  changed: () => void;
}

function AlarmBody({ alarm, detail, changed }: BodyProps) {
  const { units } = useSurroundings();
  const { title, means, firstStep, canBeWrong, needs, cautions } = alarmWords(alarm.alarm, alarm.evidence);
  const timeZone = detail?.well.timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone;
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs());
  return (
    <>
      <p class="back">
        {alarm.well === undefined ? (
          <a href="#/">All wells</a>
        ) : (
          <a href={wellAddress(alarm.well)}>{nameWords(alarm.well)}</a>
        )}
      </p>
      <h1>{title}</h1>
      <p class="doing">{placeOf(alarm, detail)}</p>
      <Mark attention={alarm.priority} urgency={urgencyOf(alarm)} />
      {alarm.standing && <p class="doing">{URGENCY_WORDS[urgencyOf(alarm)].means}</p>}
      <p class="headline">{unbroken(sentence(alarm.why))}</p>
      <p class="doing">{lifeWords(alarm, when)}</p>
      <p>{means}</p>
      <ExplainedBy alarm={alarm} detail={detail} />
      <SeenWith symptoms={symptomsOf(alarm, detail?.well.symptoms)} />
      <section aria-labelledby="first">
        <h2 id="first">First safe step</h2>
        <p class="lead">{firstStep}</p>
        <Cautions cautions={allCautions(alarm, cautions)} />
        {alarm.standing && (
          <>
            <Seen alarm={alarm} when={when} changed={changed} />
            <PutAside alarm={alarm} when={when} changed={changed} />
          </>
        )}
      </section>
      <div class="two">
        <Causes alarm={alarm} />
        <div>
          <TellingApart alarm={alarm} />
          <section aria-labelledby="wrong">
            <h2 id="wrong">When this can be wrong</h2>
            <p>{canBeWrong}</p>
            <p class="doing">What it needs: {lowerFirst(needs)}</p>
          </section>
        </div>
      </div>
      <div class="two">
        {detail && <ReadyFor detail={detail} alarm={alarm} />}
        <Figures alarm={alarm} />
      </div>
    </>
  );
}

/** It was told first, and something that came later explains it. */
function ExplainedBy({ alarm, detail }: Pick<BodyProps, 'alarm' | 'detail'>) {
  if (!detail || !alarm.standing || !isSymptom(detail.well, alarm)) return null;
  const own = detail.well.symptoms?.find((one) => one.alarm === alarm.alarm && one.pump === alarm.pump);
  const by = own && detail.well.standing.find((one) => one.alarm === own.symptomOf);
  if (!by) return null;
  return (
    <p>
      It is explained by another that stands: <a href={alarmAddress(by.id)}>{alarmTitle(by.alarm)}</a>. Begin
      there.
    </p>
  );
}

function placeOf(alarm: AlarmAnswer, detail: WellDetail | undefined): string {
  if (alarm.well === undefined) return `The whole of ${nameWords(alarm.site ?? '')}`;
  const several = (detail?.pumps.length ?? 1) > 1 && alarm.pump !== undefined;
  const node = alarm.node === undefined ? '' : `, node ${alarm.node}`;
  return `${nameWords(alarm.well)}${several ? `, pump ${alarm.pump?.slice(1)}` : ''}${node}`;
}

function lifeWords(alarm: AlarmAnswer, when: (ms: number) => string): string {
  const since = `Since ${when(alarm.sinceMs)}; told ${when(alarm.raisedMs)}.`;
  if (alarm.withdrawnMs !== undefined)
    return `${since} Taken back ${when(alarm.withdrawnMs)}: readings that came late showed otherwise.`;
  if (alarm.clearedMs !== undefined)
    return `${since} Over since ${when(alarm.clearedMs)}, which does not say that its cause is gone.`;
  return since;
}

/** Those of the alarm, and those of what it most likely is: that decides what somebody does next. */
function allCautions(alarm: AlarmAnswer, own: readonly Caution[]): Caution[] {
  const lead = alarm.causes[0]?.cause;
  return [
    ...new Set([...own, ...(lead === undefined ? [] : CAUSE_WORDS[lead].cautions), 'local-rules' as const]),
  ];
}

/** What the finding rests on; what speaks for single causes stands with them. */
function Figures({ alarm }: { alarm: AlarmAnswer }) {
  const { units } = useSurroundings();
  const spoken = new Set(readClues(alarm.alarm, alarm.evidence).map(({ figure }) => figure));
  const own = Object.fromEntries(Object.entries(alarm.evidence).filter(([name]) => !spoken.has(name)));
  const lines = figureLines(own, units).map((line): [string, string] => {
    const at = line.indexOf(': ');
    return [line.slice(0, at), line.slice(at + 2)];
  });
  if (lines.length === 0) return null;
  return (
    <section aria-labelledby="figures">
      <h2 id="figures">The figures</h2>
      <Facts facts={lines} />
    </section>
  );
}

function ReadyFor({ detail, alarm }: { detail: WellDetail; alarm: AlarmAnswer }) {
  const { units } = useSurroundings();
  const pump = detail.pumps.find((one) => one.pump === alarm.pump) ?? detail.pumps[0];
  const { known, missing } = readyFor(detail, pump, units);
  return (
    <section aria-labelledby="ready">
      <h2 id="ready">To have ready for whoever comes</h2>
      <Facts facts={known} />
      {missing.length > 0 && (
        <p class="doing spaced">Not on the card, and likely to be asked for: {missing.join(', ')}.</p>
      )}
    </section>
  );
}

function lowerFirst(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}
