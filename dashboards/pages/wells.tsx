/** All wells, worst first, each with its state in words and a ribbon of its last days. */
import { useEffect, useState } from 'preact/hooks';
import { byAttention, urgencyOfWell } from '../../shared/api/well-words.ts';
import type { WellAnswer, WellsAnswer } from '../../shared/api/wells.ts';
import type { AlarmAnswer } from '../../shared/api/alarms.ts';
import { alarmTitle } from '../../shared/api/alarm-title.ts';
import { urgencyOf } from '../../shared/words/urgency.ts';
import { nowMs } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { useAsked } from '../data/use-asked.ts';
import { LineDown } from '../parts/line-down.tsx';
import { Mark } from '../parts/mark.tsx';
import { RecentRibbon } from '../parts/ribbon.tsx';
import { Said } from '../parts/said.tsx';
import { alarmAddress, NEW_WELL_ADDRESS, wellAddress } from '../page-of.ts';
import { summaryWords } from '../words/attention.ts';
import { countWords, nameWords, placeWords, unbroken } from '../../shared/words/names.ts';

export function WellsPage() {
  const { source } = useSurroundings();
  const { state, again, put } = useAsked('wells', () => source.ask('wells'));
  const [up, setUp] = useState(true);
  useEffect(
    () =>
      source.listen(
        undefined,
        (message) => {
          if (message.event === 'again' || (message.event === 'alarm' && message.alarm.site !== undefined))
            again();
          if (message.event !== 'well') return;
          const { well } = message;
          put((now) => ({
            ...now,
            wells: now.wells
              .map((one) => (one.well === well.well ? { ...one, ...well } : one))
              .toSorted(byAttention),
          }));
        },
        setUp,
      ),
    [source],
  );
  return (
    <>
      <h1>Wells</h1>
      <LineDown up={up} />
      <Said state={state} what="the wells" again={again}>
        {(value) => <WellList value={value} />}
      </Said>
    </>
  );
}

function WellList({ value }: { value: WellsAnswer }) {
  const { wells, waitingNodes } = value;
  if (wells.length === 0) return <Begin waitingNodes={waitingNodes} />;
  return (
    <>
      <p class="lead">
        {summaryWords(wells.map((well) => urgencyOfWell(well, nowMs()) ?? well.attention))}{' '}
        {waitingNodes > 0 && <WaitingLink n={waitingNodes} />}
      </p>
      {value.siteAlarms.map((alarm) => (
        <SiteAlarm key={alarm.id} alarm={alarm} />
      ))}
      <ul class="wells">
        {wells.map((well) => (
          <WellRow key={well.well} well={well} />
        ))}
      </ul>
      <p>
        <NewWellLink />
      </p>
    </>
  );
}

/** The two ways in, for whoever opens it for the first time. */
function Begin({ waitingNodes }: { waitingNodes: number }) {
  return (
    <>
      <p class="lead">No well yet. {waitingNodes > 0 && <WaitingLink n={waitingNodes} />}</p>
      <ul class="begin">
        <li>
          <NewWellLink />
          <p>Its name, and on its card what you know of pump, switch and tank. It needs no sensors.</p>
        </li>
        <li>
          <a class="go" href="#/nodes">
            Let a node in
          </a>
          <p>
            The box with the current clamp and the pressure transducer. As soon as it sends its first
            readings, its well stands here.
          </p>
        </li>
      </ul>
    </>
  );
}

/** A well can be written down before anything is heard of it. */
function NewWellLink() {
  const { source } = useSurroundings();
  if (!source.live) return null;
  return (
    <a class="go" href={NEW_WELL_ADDRESS}>
      Write down a new well
    </a>
  );
}

/** It stands for all of a site's nodes, so it is told once, over the wells. */
function SiteAlarm({ alarm }: { alarm: AlarmAnswer }) {
  return (
    <article class={`alarm is-${alarm.priority}`}>
      <header>
        <h2>
          <a href={alarmAddress(alarm.id)}>
            {nameWords(alarm.site ?? '')}: {alarmTitle(alarm.alarm)}
          </a>
        </h2>
        <Mark attention={alarm.priority} urgency={urgencyOf(alarm)} />
      </header>
      <p>{alarm.why}</p>
    </article>
  );
}

function WaitingLink({ n }: { n: number }) {
  return <a href="#/nodes">{countWords(n, 'node waits', 'nodes wait')} to be let in.</a>;
}

function WellRow({ well }: { well: WellAnswer }) {
  const { units } = useSurroundings();
  const headline = well.words[units];
  const doing = well.doing[units];
  return (
    <li class={`well-row is-${well.attention}`}>
      <Mark attention={well.attention} urgency={urgencyOfWell(well, nowMs())} />
      <div class="well-said">
        <h2>
          <a href={wellAddress(well.well)}>{nameWords(well.well)}</a>{' '}
          <span class="place">{placeWords(well)}</span>
        </h2>
        <p class="headline">{unbroken(headline)}</p>
        {doing !== headline && <p class="doing">{doing}</p>}
      </div>
      <RecentRibbon recent={well.recent} usual={well.usualRanS} />
    </li>
  );
}
