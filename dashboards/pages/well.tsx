/** One well: what stands against it first, then live readings, the last run, the year and the past, and what is known of it. */
import { useCallback, useEffect, useRef, useState } from 'preact/hooks';
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { alarmTitle } from '../../shared/api/alarm-title.ts';
import type { LiveMessage } from '../../shared/api/live.ts';
import { momentWords } from '../../shared/api/time-words.ts';
import { isSymptom, urgencyOfWell } from '../../shared/api/well-words.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';
import { urgencyOf } from '../../shared/words/urgency.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { AlarmCard, symptomsOf } from '../parts/alarm-card.tsx';
import { BookLinks } from '../parts/book-links.tsx';
import { Checks } from '../parts/checks.tsx';
import { CardFacts, Sensors } from '../parts/facts.tsx';
import { History } from '../parts/history.tsx';
import { LineDown } from '../parts/line-down.tsx';
import { LiveCharts } from '../parts/live-charts.tsx';
import type { Hear } from '../parts/live-charts.tsx';
import { Mark } from '../parts/mark.tsx';
import { Said } from '../parts/said.tsx';
import { Signature } from '../parts/signature.tsx';
import { WellActs } from '../parts/well-acts.tsx';
import { YearStrip } from '../parts/year-strip.tsx';
import { alarmAddress } from '../page-of.ts';
import { nameWords, placeWords, unbroken } from '../../shared/words/names.ts';

const YEAR_MS = 366 * 86_400_000;
/** Cycles are saved every few minutes: the last run is looked for this often. */
const LOOK_AGAIN_MS = 120_000;

export function WellPage({ name }: { name: string }) {
  const { source } = useSurroundings();
  const detail = useAsked(`well ${name}`, () => source.ask('well', { well: name }));
  const alarms = useAsked(`alarms ${name}`, () =>
    source.ask('alarms', { well: name, from: Math.round(nowMs() - YEAR_MS) }),
  );
  const again = useCallback(() => {
    detail.again();
    alarms.again();
  }, []);
  const missing = detail.state.is === 'failed' && detail.state.missing;
  const { hear, up } = useLive(name, missing, (message) => {
    if (message.event === 'again' || message.event === 'alarm') again();
    if (message.event !== 'well') return;
    // The first that is heard of it: its sensors are asked for, which this message does not name.
    if (detail.state.is === 'ready' && detail.state.value.sensors.length === 0 && message.well.heardMs)
      again();
    detail.put((now) => ({ ...now, well: { ...now.well, ...message.well } }));
  });
  useEffect(() => {
    const timer = window.setInterval(detail.again, LOOK_AGAIN_MS);
    return () => window.clearInterval(timer);
  }, []);
  return (
    <>
      <p class="back">
        <a href="#/">All wells</a>
      </p>
      <h1>{nameWords(name)}</h1>
      <LineDown up={up} />
      <Said state={detail.state} what="this well" again={detail.again}>
        {(value) => (
          <WellBody
            detail={value}
            alarms={alarms.state.is === 'ready' ? alarms.state.value.alarms : []}
            alarmsFailed={alarms.state.is === 'failed' ? alarms.state.words : undefined}
            hear={hear}
            again={again}
          />
        )}
      </Said>
    </>
  );
}

/** One stream for the page; its parts hear it through `hear`. None where there is no such well. */
function useLive(
  well: string,
  missing: boolean,
  mine: (message: LiveMessage) => void,
): { hear: Hear; up: boolean } {
  const { source } = useSurroundings();
  const [up, setUp] = useState(true);
  const listeners = useRef(new Set<(message: LiveMessage) => void>());
  const own = useRef(mine);
  own.current = mine;
  useEffect(
    () =>
      missing
        ? undefined
        : source.listen(
            well,
            (message) => {
              own.current(message);
              for (const listener of listeners.current) listener(message);
            },
            setUp,
          ),
    [well, missing, source],
  );
  const hear = useCallback<Hear>((listener) => {
    listeners.current.add(listener);
    return () => listeners.current.delete(listener);
  }, []);
  return { hear, up };
}

interface BodyProps {
  detail: WellDetail;
  alarms: readonly AlarmAnswer[];
  alarmsFailed: string | undefined;
  hear: Hear;
  again: () => void;
}

function WellBody({ detail, alarms, alarmsFailed, hear, again }: BodyProps) {
  const { units } = useSurroundings();
  const { well } = detail;
  const [chosen, setChosen] = useState(detail.pumps[0]?.pump);
  const pump = detail.pumps.find((one) => one.pump === chosen) ?? detail.pumps[0];
  const headline = well.words[units];
  const doing = well.doing[units];
  const standing = well.standing.filter((alarm) => !isSymptom(well, alarm));
  return (
    <>
      <div class={`well-top is-${well.attention}`}>
        <p class="doing">{placeWords(well)}</p>
        <Mark attention={well.attention} urgency={urgencyOfWell(well, nowMs())} />
        <p class="headline">{unbroken(headline)}</p>
        {doing !== headline && <p class="doing">{doing}</p>}
      </div>
      {standing.length > 0 && (
        <section aria-labelledby="standing">
          <h2 id="standing">Alarms that stand</h2>
          {standing.map((alarm) => (
            <AlarmCard
              key={alarm.id}
              alarm={alarm}
              symptoms={symptomsOf(alarm, well.symptoms)}
              timeZone={well.timeZone}
              changed={again}
            />
          ))}
        </section>
      )}
      <WellActs detail={detail} pump={pump} changed={again} />
      <BookLinks well={well.well} />
      <PumpChoice pumps={detail.pumps} chosen={pump?.pump} choose={setChosen} />
      <div class="two">
        <section aria-labelledby="live">
          <h2 id="live">The last 15 minutes</h2>
          <LiveCharts detail={detail} hear={hear} />
        </section>
        <section aria-labelledby="run">
          <h2 id="run">The last run over the usual one</h2>
          {pump && <Signature pump={pump} timeZone={well.timeZone} />}
        </section>
      </div>
      <section aria-labelledby="year">
        <h2 id="year">The year, run time a day</h2>
        <YearStrip detail={detail} alarms={alarms} />
      </section>
      <section aria-labelledby="past">
        <h2 id="past">The past</h2>
        {pump && <History detail={detail} pump={pump} />}
      </section>
      <section aria-labelledby="told">
        <h2 id="told">Alarms of the last year</h2>
        {alarmsFailed === undefined ? (
          <PastAlarms alarms={alarms} timeZone={well.timeZone} />
        ) : (
          <p class="said">{alarmsFailed}</p>
        )}
      </section>
      {pump && <CardFacts detail={detail} pump={pump} />}
      <section aria-labelledby="checks">
        <h2 id="checks">Do sensors and card agree?</h2>
        <Checks checks={detail.checks} />
      </section>
      <section aria-labelledby="sensors">
        <h2 id="sensors">Nodes and sensors</h2>
        <Sensors detail={detail} />
      </section>
    </>
  );
}

function PumpChoice(props: {
  pumps: readonly PumpDetail[];
  chosen: string | undefined;
  choose: (pump: string) => void;
}) {
  if (props.pumps.length < 2) return null;
  return (
    <fieldset class="choices">
      <legend>Pump</legend>
      {props.pumps.map(({ pump }) => (
        <label key={pump}>
          <input
            type="radio"
            name="pump"
            checked={pump === props.chosen}
            onChange={() => props.choose(pump)}
          />
          <span>Pump {pump.slice(1)}</span>
        </label>
      ))}
    </fieldset>
  );
}

function PastAlarms({ alarms, timeZone }: { alarms: readonly AlarmAnswer[]; timeZone: string }) {
  const { units } = useSurroundings();
  if (alarms.length === 0) return <p class="said">None.</p>;
  const when = (ms: number): string => momentWords(ms, timeZone, units, nowMs());
  const newest = alarms.toSorted((a, b) => b.sinceMs - a.sinceMs);
  return (
    <ul class="past-alarms">
      {newest.map((alarm) => (
        <li key={alarm.id}>
          <Mark attention={alarm.priority} urgency={urgencyOf(alarm)} />
          <div>
            <p>
              <a href={alarmAddress(alarm.id)}>{alarmTitle(alarm.alarm)}</a>. {alarm.why}
            </p>
            <p class="doing">
              From {when(alarm.sinceMs)} {endWords(alarm, when)}
            </p>
          </div>
        </li>
      ))}
    </ul>
  );
}

function endWords(alarm: AlarmAnswer, when: (ms: number) => string): string {
  if (alarm.withdrawnMs !== undefined)
    return `; withdrawn ${when(alarm.withdrawnMs)}: late readings showed otherwise.`;
  if (alarm.clearedMs === undefined && alarm.handedOver) return 'on; it stood when the well was handed over.';
  return alarm.clearedMs === undefined ? 'on; it stands.' : `to ${when(alarm.clearedMs)}.`;
}
