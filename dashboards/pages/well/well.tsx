/**
 * One well: what stands against it first, then live readings, the last run, the year and the past,
 * and what is known of it.
 */
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { AlarmAnswer } from '../../../shared/api/alarms.ts';
import { alarmTitle } from '../../../shared/text/en/alarm-title.ts';
import { whyText } from '../../../shared/text/en/reasons/why.ts';
import type { LiveMessage } from '../../../shared/api/live.ts';
import { momentWords } from '../../../shared/text/en/time-words.ts';
import { isSymptom, urgencyOfWell } from '../../../shared/text/en/well-words.ts';
import type { PumpDetail, WellDetail } from '../../../shared/api/wells.ts';
import { urgencyOf } from '../../../shared/text/en/alarms/urgency.ts';
import { DAY_MS } from '../../../shared/units/duration.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { AlarmCard, symptomsOf } from '../../ui/alarm-card.tsx';
import { Evaluations } from './evaluations.tsx';
import { LogbookLinks } from './logbook-links.tsx';
import { Checks } from './checks.tsx';
import { CardFacts, Sensors } from '../../ui/facts.tsx';
import { History } from './history.tsx';
import { ConnectionLost } from '../../ui/connection-lost.tsx';
import { LiveCharts } from './live-charts.tsx';
import type { SubscribeLive } from './live-charts.tsx';
import { AttentionMark } from '../../charts/attention-mark.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { Signature } from './signature.tsx';
import { WellActions } from './well-actions.tsx';
import { YearStrip } from './year-strip.tsx';
import { alarmUrl } from '../../page-url.ts';
import { nameText, placeText, withNonBreakingUnits } from '../../../shared/text/en/names.ts';
import { texts } from './texts.ts';

const YEAR_MS = 366 * DAY_MS;
/** Cycles are saved every few minutes: the last run is looked for this often. */
const REFRESH_MS = 120_000;

export function WellPage({ name }: { name: string }) {
  const { source } = useAppContext();
  const detail = useRequest(`well ${name}`, () => source.get('well', { well: name }));
  const alarms = useRequest(`alarms ${name}`, () =>
    source.get('alarms', { well: name, from: Math.round(nowMs() - YEAR_MS) }),
  );
  const reload = useCallback(() => {
    detail.reload();
    alarms.reload();
  }, []);
  const missing = detail.state.is === 'failed' && detail.state.notFound;
  const { subscribe, up } = useLive(name, missing, (message) => {
    if (message.event === 'resync' || message.event === 'alarm') reload();
    if (message.event !== 'well') return;
    // The first that is heard of it: its sensors are asked for, which this message does not name.
    if (detail.state.is === 'ready' && detail.state.value.sensors.length === 0 && message.well.lastReadingMs)
      reload();
    detail.update((now) => ({ ...now, well: { ...now.well, ...message.well } }));
  });
  useEffect(() => {
    const timer = window.setInterval(detail.reload, REFRESH_MS);
    return () => window.clearInterval(timer);
  }, []);
  return (
    <>
      <p class="back">
        <a href="#/">{texts().allWells}</a>
      </p>
      <h1>{nameText(name)}</h1>
      <ConnectionLost up={up} />
      <RequestView state={detail.state} subject={texts().subject} reload={detail.reload}>
        {(value) => (
          <WellBody
            detail={value}
            alarms={alarms.state.is === 'ready' ? alarms.state.value.alarms : []}
            alarmsFailed={alarms.state.is === 'failed' ? alarms.state.message : undefined}
            subscribe={subscribe}
            reload={reload}
          />
        )}
      </RequestView>
    </>
  );
}

/** One stream for the page; its parts hear it through `hear`. None where there is no such well. */
function useLive(
  well: string,
  missing: boolean,
  onMessage: (message: LiveMessage) => void,
): { subscribe: SubscribeLive; up: boolean } {
  const { source } = useAppContext();
  const [up, setUp] = useState(true);
  const listeners = useRef(new Set<(message: LiveMessage) => void>());
  const handler = useRef(onMessage);
  handler.current = onMessage;
  useEffect(
    () =>
      missing
        ? undefined
        : source.subscribe(
            well,
            (message) => {
              handler.current(message);
              for (const listener of listeners.current) listener(message);
            },
            setUp,
          ),
    [well, missing, source],
  );
  const subscribe = useCallback<SubscribeLive>((listener) => {
    listeners.current.add(listener);
    return () => listeners.current.delete(listener);
  }, []);
  return { subscribe, up };
}

interface BodyProps {
  detail: WellDetail;
  alarms: readonly AlarmAnswer[];
  alarmsFailed: string | undefined;
  subscribe: SubscribeLive;
  reload: () => void;
}

function WellTop({ well }: Pick<WellDetail, 'well'>) {
  const { units } = useAppContext();
  const headline = well.headline[units];
  const doing = well.activity[units];
  return (
    <div class={`well-top is-${well.attention}`}>
      <p class="secondary">{placeText(well)}</p>
      <AttentionMark attention={well.attention} urgency={urgencyOfWell(well, nowMs())} />
      <p class="headline">{withNonBreakingUnits(headline)}</p>
      {doing !== headline && <p class="secondary">{doing}</p>}
    </div>
  );
}

function WellBody({ detail, alarms, alarmsFailed, subscribe, reload }: BodyProps) {
  const { well } = detail;
  const [chosen, setChosen] = useState(detail.pumps[0]?.pump);
  const pump = detail.pumps.find((one) => one.pump === chosen) ?? detail.pumps[0];
  const active = well.activeAlarms.filter((alarm) => !isSymptom(well, alarm));
  return (
    <>
      <WellTop well={well} />
      {active.length > 0 && (
        <section aria-labelledby="active-alarms">
          <h2 id="active-alarms">{texts().activeAlarms}</h2>
          {active.map((alarm) => (
            <AlarmCard
              key={alarm.id}
              alarm={alarm}
              symptoms={symptomsOf(alarm, well.symptoms)}
              timeZone={well.timeZone}
              names={detail.names}
              changed={reload}
            />
          ))}
        </section>
      )}
      <WellActions detail={detail} pump={pump} changed={reload} />
      <LogbookLinks well={well.well} />
      <PumpSelect pumps={detail.pumps} chosen={pump?.pump} choose={setChosen} />
      <div class="two">
        <section aria-labelledby="live">
          <h2 id="live">{texts().last15Minutes}</h2>
          <LiveCharts detail={detail} subscribe={subscribe} />
        </section>
        <section aria-labelledby="run">
          <h2 id="run">{texts().lastRun}</h2>
          {pump && <Signature pump={pump} timeZone={well.timeZone} />}
        </section>
      </div>
      <section aria-labelledby="year">
        <h2 id="year">{texts().yearOfRunTime}</h2>
        <YearStrip detail={detail} alarms={alarms} />
      </section>
      <section aria-labelledby="past">
        <h2 id="past">{texts().trends}</h2>
        {pump && <History detail={detail} pump={pump} />}
      </section>
      <section aria-labelledby="told">
        <h2 id="told">{texts().pastAlarms}</h2>
        {alarmsFailed === undefined ? (
          <PastAlarms alarms={alarms} timeZone={well.timeZone} />
        ) : (
          <p class="status">{alarmsFailed}</p>
        )}
        <Evaluations name={well.well} />
      </section>
      {pump && <CardFacts detail={detail} pump={pump} />}
      <section aria-labelledby="checks">
        <h2 id="checks">{texts().cardAgainstSensors}</h2>
        <Checks checks={detail.checks} />
      </section>
      <section aria-labelledby="sensors">
        <h2 id="sensors">{texts().nodesAndSensors}</h2>
        <Sensors detail={detail} />
      </section>
    </>
  );
}

function PumpSelect(props: {
  pumps: readonly PumpDetail[];
  chosen: string | undefined;
  choose: (pump: string) => void;
}) {
  if (props.pumps.length < 2) return null;
  return (
    <fieldset class="choices">
      <legend>{texts().pump}</legend>
      {props.pumps.map(({ pump }) => (
        <label key={pump}>
          <input
            type="radio"
            name="pump"
            checked={pump === props.chosen}
            onChange={() => props.choose(pump)}
          />
          <span>{texts().pumpNumber(pump.slice(1))}</span>
        </label>
      ))}
    </fieldset>
  );
}

function PastAlarms({ alarms, timeZone }: { alarms: readonly AlarmAnswer[]; timeZone: string }) {
  const { units } = useAppContext();
  if (alarms.length === 0) return <p class="status">{texts().none}</p>;
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs());
  const newest = alarms.toSorted((a, b) => b.sinceMs - a.sinceMs);
  return (
    <ul class="past-alarms">
      {newest.map((alarm) => (
        <li key={alarm.id}>
          <AttentionMark attention={alarm.priority} urgency={urgencyOf(alarm)} />
          <div>
            <p>
              <a href={alarmUrl(alarm.id)}>{alarmTitle(alarm.alarm)}</a>. {whyText(alarm, units)}
            </p>
            <p class="secondary">{periodWords(alarm, when)}</p>
          </div>
        </li>
      ))}
    </ul>
  );
}

function periodWords(alarm: AlarmAnswer, when: (ms: number) => string): string {
  const since = when(alarm.sinceMs);
  if (alarm.withdrawnMs !== undefined) return texts().withdrawn(since, when(alarm.withdrawnMs));
  if (alarm.clearedMs !== undefined) return texts().fromTo(since, when(alarm.clearedMs));
  return alarm.imported ? texts().activeAtExport(since) : texts().stillActive(since);
}
