/** All wells, worst first, each with its state in words and a ribbon of its last days. */
import { useEffect, useState } from 'preact/hooks';
import { compareByAttention, urgencyOfWell } from '../../../shared/text/en/well-words.ts';
import type { WellAnswer, WellsAnswer } from '../../../shared/api/wells.ts';
import type { AlarmAnswer } from '../../../shared/api/alarms.ts';
import { alarmTitle } from '../../../shared/text/en/alarm-title.ts';
import { whyText } from '../../../shared/text/en/reasons/why.ts';
import { urgencyOf } from '../../../shared/text/en/alarms/urgency.ts';
import { nowMs } from '../../data/clock.ts';
import { useAppContext } from '../../data/settings.ts';
import { useRequest } from '../../data/use-request.ts';
import { ConnectionLost } from '../../ui/connection-lost.tsx';
import { AttentionMark } from '../../charts/attention-mark.tsx';
import { RecentRibbon } from '../../charts/ribbon.tsx';
import { RequestView } from '../../ui/request-view.tsx';
import { alarmUrl, NEW_WELL_URL, wellUrl } from '../../page-url.ts';
import { summaryWords } from '../../words/attention.ts';
import { nameText, placeText, withNonBreakingUnits } from '../../../shared/text/en/names.ts';
import { texts } from './texts.ts';

export function WellsPage() {
  const { source } = useAppContext();
  const { state, reload, update } = useRequest('wells', () => source.get('wells'));
  const [up, setUp] = useState(true);
  useEffect(
    () =>
      source.subscribe(
        undefined,
        (message) => {
          if (message.event === 'resync' || (message.event === 'alarm' && message.alarm.site !== undefined))
            reload();
          if (message.event !== 'well') return;
          const { well } = message;
          update((now) => ({
            ...now,
            wells: now.wells
              .map((one) => (one.well === well.well ? { ...one, ...well } : one))
              .toSorted(compareByAttention),
          }));
        },
        setUp,
      ),
    [source],
  );
  return (
    <>
      <h1>{texts().title}</h1>
      <ConnectionLost up={up} />
      <RequestView state={state} subject={texts().subject} reload={reload}>
        {(value) => <WellList value={value} />}
      </RequestView>
    </>
  );
}

function WellList({ value }: { value: WellsAnswer }) {
  const { wells, pendingNodes } = value;
  if (wells.length === 0) return <FirstSteps pendingNodes={pendingNodes} />;
  return (
    <>
      <p class="lead">
        {summaryWords(wells.map((well) => urgencyOfWell(well, nowMs()) ?? well.attention))}{' '}
        {pendingNodes > 0 && <PendingNodesLink n={pendingNodes} />}
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
function FirstSteps({ pendingNodes }: { pendingNodes: number }) {
  return (
    <>
      <p class="lead">
        {texts().none} {pendingNodes > 0 && <PendingNodesLink n={pendingNodes} />}
      </p>
      <ul class="begin">
        <li>
          <NewWellLink />
          <p>{texts().newWellHelp}</p>
        </li>
        <li>
          <a class="go" href="#/nodes">
            {texts().approveNode}
          </a>
          <p>{texts().approveNodeHelp}</p>
        </li>
      </ul>
    </>
  );
}

/** A well can be written down before anything is heard of it. */
function NewWellLink() {
  const { source } = useAppContext();
  if (!source.live) return null;
  return (
    <a class="go" href={NEW_WELL_URL}>
      {texts().addWell}
    </a>
  );
}

/** It stands for all of a site's nodes, so it is told once, over the wells. */
function SiteAlarm({ alarm }: { alarm: AlarmAnswer }) {
  const { units } = useAppContext();
  return (
    <article class={`alarm is-${alarm.priority}`}>
      <header>
        <h2>
          <a href={alarmUrl(alarm.id)}>
            {nameText(alarm.site ?? '')}: {alarmTitle(alarm.alarm)}
          </a>
        </h2>
        <AttentionMark attention={alarm.priority} urgency={urgencyOf(alarm)} />
      </header>
      <p>{whyText(alarm, units)}</p>
    </article>
  );
}

function PendingNodesLink({ n }: { n: number }) {
  return <a href="#/nodes">{texts().pendingNodes(n)}</a>;
}

function WellRow({ well }: { well: WellAnswer }) {
  const { units } = useAppContext();
  const headline = well.headline[units];
  const doing = well.activity[units];
  return (
    <li class={`well-row is-${well.attention}`}>
      <AttentionMark attention={well.attention} urgency={urgencyOfWell(well, nowMs())} />
      <div class="well-status">
        <h2>
          <a href={wellUrl(well.well)}>{nameText(well.well)}</a> <span class="place">{placeText(well)}</span>
        </h2>
        <p class="headline">{withNonBreakingUnits(headline)}</p>
        {doing !== headline && <p class="secondary">{doing}</p>}
      </div>
      <RecentRibbon recent={well.recentDays} normal={well.normalRanS} />
    </li>
  );
}
