/**
 * One alarm, in the order in which a good technician would speak: what is seen and since when, what
 * to do first, what it most likely is and why, what else it may be and how to tell, when this can
 * be wrong, and what to have ready. It prints as a sheet to hand over.
 */
import { useEffect } from 'preact/hooks';
import type { AlarmAnswer } from '../../../shared/api/alarms.ts';
import { alarmTitle } from '../../../shared/text/en/alarm-title.ts';
import { whyText } from '../../../shared/text/en/reasons/why.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { isSymptom } from '../../../shared/text/en/well-words.ts';
import type { WellDetail } from '../../../shared/api/wells.ts';
import { CAUSE_WORDS } from '../../../shared/text/en/causes/cause-words.ts';
import { lookAlikesAmong } from '../../../shared/text/en/causes/look-alikes.ts';
import type { Caution } from '../../../shared/text/en/cautions.ts';
import { evaluateClues } from '../../../shared/text/en/causes/clues.ts';
import { figureLines } from '../../../shared/text/en/figures.ts';
import { alarmWords } from '../../../shared/text/en/alarms/forms.ts';
import { URGENCY_WORDS, urgencyOf } from '../../../shared/text/en/alarms/urgency.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { ShelveForm, AcknowledgeForm } from '../../ui/alarm-actions.tsx';
import { Cautions, Symptoms, sentence, symptomsOf } from '../../ui/alarm-card.tsx';
import { Causes, DistinguishingChecks } from './alarm-causes.tsx';
import { Facts } from '../../../shared/view/facts.tsx';
import { AttentionMark } from '../../charts/attention-mark.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { alarmUrl, alarmIdParts, wellUrl } from '../../page-url.ts';
import { lowerFirst, nameText, withNonBreakingUnits } from '../../../shared/text/en/names.ts';
import { serviceFacts } from '../../words/service-facts.ts';
import { texts } from './texts.ts';

export function AlarmPage({ id }: { id: string }) {
  const { source } = useAppContext();
  const parts = alarmIdParts(id);
  const place = parts?.place ?? '';
  const alarms = useRequest(`alarm ${id}`, () =>
    source.get('alarms', { well: place, from: parts?.sinceMs ?? 0 }),
  );
  const detail = useRequest(`well ${place}`, () => source.get('well', { well: place }));
  const reload = (): void => {
    alarms.reload();
    detail.reload();
  };
  useEffect(
    () =>
      source.subscribe(
        undefined,
        (message) => {
          if (message.event === 'resync' || message.event === 'alarm') reload();
        },
        () => undefined,
      ),
    [source, id],
  );
  return (
    <RequestView state={alarms.state} subject={texts().thisAlarm} reload={reload}>
      {({ alarms: all }) => {
        const alarm = all.find((one) => one.id === id);
        if (!alarm) return <NotFound />;
        // Of a whole site there is no well to show.
        return detail.state.is === 'loading' ? (
          <p class="status" role="status">
            {texts().loadingWell}
          </p>
        ) : (
          <AlarmBody
            alarm={alarm}
            detail={detail.state.is === 'ready' && alarm.well !== undefined ? detail.state.value : undefined}
            changed={reload}
          />
        );
      }}
    </RequestView>
  );
}

function NotFound() {
  return (
    <>
      <h1>{texts().unknownAlarm}</h1>
      <p class="lead">
        <a href="#/">{texts().allWells}</a>
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
  const { units } = useAppContext();
  const words = alarmWords(alarm.alarm, alarm.evidence, detail?.names);
  const { title, means, firstStep, canBeWrong, needs, cautions } = words;
  const timeZone = detail?.well.timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone;
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs());
  return (
    <>
      <p class="back">
        {alarm.well === undefined ? (
          <a href="#/">{texts().allWells}</a>
        ) : (
          <a href={wellUrl(alarm.well)}>{nameText(alarm.well)}</a>
        )}
      </p>
      <h1>{title}</h1>
      <p class="secondary">{placeOf(alarm, detail)}</p>
      <AttentionMark attention={alarm.priority} urgency={urgencyOf(alarm)} />
      {alarm.active && <p class="secondary">{URGENCY_WORDS[urgencyOf(alarm)].means}</p>}
      <p class="headline">{withNonBreakingUnits(sentence(whyText(alarm, units)))}</p>
      <p class="secondary">{lifecycleWords(alarm, when)}</p>
      <p>{means}</p>
      <ExplainedBy alarm={alarm} detail={detail} />
      <Symptoms symptoms={symptomsOf(alarm, detail?.well.symptoms)} />
      <section aria-labelledby="first">
        <h2 id="first">{texts().firstSafeStep}</h2>
        <p class="lead">{firstStep}</p>
        <Cautions cautions={allCautions(alarm, cautions)} />
        {alarm.active && (
          <>
            <AcknowledgeForm alarm={alarm} when={when} changed={changed} />
            <ShelveForm alarm={alarm} when={when} changed={changed} />
          </>
        )}
      </section>
      <div class="two">
        <Causes alarm={alarm} />
        <div>
          <DistinguishingChecks alarm={alarm} />
          <section aria-labelledby="wrong">
            <h2 id="wrong">{texts().canBeWrong}</h2>
            <p>{canBeWrong}</p>
            <p class="secondary">{texts().requires(lowerFirst(needs))}</p>
          </section>
        </div>
      </div>
      <div class="two">
        {detail && <ServiceFacts detail={detail} alarm={alarm} />}
        <Figures alarm={alarm} />
      </div>
    </>
  );
}

/** It was told first, and something that came later explains it. */
function ExplainedBy({ alarm, detail }: Pick<BodyProps, 'alarm' | 'detail'>) {
  if (!detail || !alarm.active || !isSymptom(detail.well, alarm)) return null;
  const own = detail.well.symptoms?.find((one) => one.alarm === alarm.alarm && one.pump === alarm.pump);
  const by = own && detail.well.activeAlarms.find((one) => one.alarm === own.symptomOf);
  if (!by) return null;
  return (
    <p>
      {texts().explainedBy} <a href={alarmUrl(by.id)}>{alarmTitle(by.alarm)}</a>
    </p>
  );
}

function placeOf(alarm: AlarmAnswer, detail: WellDetail | undefined): string {
  if (alarm.well === undefined) return texts().wholeSite(nameText(alarm.site ?? ''));
  const several = (detail?.pumps.length ?? 1) > 1;
  return texts().place(nameText(alarm.well), several ? alarm.pump?.slice(1) : undefined, alarm.node);
}

function lifecycleWords(alarm: AlarmAnswer, when: (ms: number) => string): string {
  const since = texts().sinceAndNotified(when(alarm.sinceMs), when(alarm.raisedMs));
  if (alarm.withdrawnMs !== undefined) return texts().withdrawn(since, when(alarm.withdrawnMs));
  if (alarm.clearedMs !== undefined) return texts().cleared(since, when(alarm.clearedMs));
  return since;
}

/**
 * Those of the alarm, those of what it most likely is, which decides what somebody does next, and
 * those of what tells look-alikes apart.
 */
function allCautions(alarm: AlarmAnswer, own: readonly Caution[]): Caution[] {
  const causes = alarm.causes.map(({ cause }) => cause);
  const ofLead = causes.slice(0, 1).flatMap((cause): readonly Caution[] => CAUSE_WORDS[cause].cautions);
  const ofLookAlikes = lookAlikesAmong(causes).flatMap(({ cautions = [] }) => cautions);
  return [...new Set<Caution>([...own, ...ofLead, ...ofLookAlikes, 'local-rules'])];
}

/** What the finding rests on; what speaks for single causes stands with them. */
function Figures({ alarm }: { alarm: AlarmAnswer }) {
  const { units } = useAppContext();
  const spoken = new Set(evaluateClues(alarm.alarm, alarm.evidence).map(({ figure }) => figure));
  const own = Object.fromEntries(Object.entries(alarm.evidence).filter(([name]) => !spoken.has(name)));
  const lines = figureLines(own, units).map((line): [string, string] => {
    const at = line.indexOf(': ');
    return [line.slice(0, at), line.slice(at + 2)];
  });
  if (lines.length === 0) return null;
  return (
    <section aria-labelledby="figures">
      <h2 id="figures">{texts().figures}</h2>
      <Facts facts={lines} />
    </section>
  );
}

function ServiceFacts({ detail, alarm }: { detail: WellDetail; alarm: AlarmAnswer }) {
  const { units } = useAppContext();
  const pump = detail.pumps.find((one) => one.pump === alarm.pump) ?? detail.pumps[0];
  const { known, missing } = serviceFacts(detail, pump, units);
  return (
    <section aria-labelledby="ready">
      <h2 id="ready">{texts().haveReady}</h2>
      <Facts facts={known} />
      {missing.length > 0 && <p class="secondary spaced">{texts().missingOnCard(missing.join(', '))}</p>}
    </section>
  );
}
