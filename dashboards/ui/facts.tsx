/**
 * What the card says, what is usual, and the sensors with when they were last heard. What is not
 * known is said to be so.
 */
import { channelName } from '../../shared/text/en/channel-names.ts';
import { agoWords, dateWords } from '../../shared/text/en/time-words.ts';
import { formatDuration } from '../../shared/text/en/format.ts';
import type { BaselineEvent } from '../../shared/api/events.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';
import { formatQuantity } from '../../shared/quantity/format-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import { Facts, type Fact } from '../../shared/view/facts.tsx';
import { Table } from '../../shared/view/table.tsx';
import type { Part } from '../../shared/text/en/parts/part-words.ts';
import { useNow } from '../data/clock.ts';
import { useAppContext } from '../data/settings.ts';
import { partUrl } from '../page-url.ts';
import { volumeSourceWords } from '../words/volume-source.ts';
import { texts } from './texts.ts';

/** A name that leads to what is told of the part. */
function PartLink({ part, name }: { part: Part; name: string }) {
  return <a href={partUrl(part)}>{name}</a>;
}

export function CardFacts({ detail, pump }: { detail: WellDetail; pump: PumpDetail }) {
  const { units } = useAppContext();
  const { card } = detail;
  const { baseline, previousBaseline } = pump;
  const format = (value: number | undefined, dimension: Dimension): string =>
    value === undefined ? texts().notOnCard : formatQuantity(value, dimension, units);
  const formatLearned = (value: number | undefined, dimension: Dimension): string =>
    value === undefined ? texts().notKnownYet : formatQuantity(value, dimension, units);
  const cardFacts: Fact[] = [
    [
      <PartLink part="pressure-switch" name={texts().switch} />,
      card.cutInKpa === undefined && card.cutOutKpa === undefined
        ? texts().notOnCard
        : texts().fromTo(format(card.cutInKpa, 'pressure'), format(card.cutOutKpa, 'pressure')),
    ],
    [
      <PartLink part="pressure-tank" name={texts().tank} />,
      card.tankKind === undefined
        ? texts().notOnCard
        : `${card.tankKind === 'plain' ? texts().plainTank : texts().captiveAir}, ${format(card.tankL, 'volume')}`,
    ],
    [<PartLink part="pressure-tank" name={texts().precharge} />, format(card.prechargeKpa, 'pressure')],
    [<PartLink part="relief-valve" name={texts().reliefValve} />, format(card.reliefKpa, 'pressure')],
    [
      <PartLink part={pump.kind === 'jet' ? 'jet-pump' : 'submersible-pump'} name={texts().pumpSetAt} />,
      format(card.setDepthM, 'length'),
    ],
    [<PartLink part="motor" name={texts().serviceFactorAmps} />, format(pump.maxAmps, 'current')],
  ];
  const normalFacts: Fact[] = [
    [texts().runningAmps, formatLearned(baseline?.amps, 'current')],
    [texts().cutIn, formatLearned(baseline?.cutInKpa, 'pressure')],
    [texts().cutOut, formatLearned(baseline?.cutOutKpa, 'pressure')],
    [texts().runTime, baseline?.ranS === undefined ? texts().notKnownYet : formatDuration(baseline.ranS)],
    [
      texts().cyclesPerDay,
      baseline?.cyclesPerDay === undefined ? texts().notKnownYet : String(Math.round(baseline.cyclesPerDay)),
    ],
    [texts().waterPerRun, volumeSourceWords(detail, pump)],
  ];
  return (
    <div class="two">
      <section aria-labelledby="card">
        <h2 id="card">{texts().onTheCard}</h2>
        <Facts facts={cardFacts} />
      </section>
      <section aria-labelledby="usual">
        <h2 id="usual">{texts().normalHere}</h2>
        {baseline?.noneBecause !== undefined && (
          <p class="status">{texts().noNormal(baseline.noneBecause)}</p>
        )}
        <Facts facts={normalFacts} />
        {baseline && (
          <p class="secondary">
            {(baseline.pinned ? texts().pinnedOn : texts().learnedOn)(
              dateWords(Date.parse(baseline.at), detail.well.timeZone, detail.nowMs),
            )}
          </p>
        )}
        {previousBaseline && (
          <p class="secondary">{texts().beforeLastVisit(previousBaselineWords(previousBaseline, format))}</p>
        )}
      </section>
    </div>
  );
}

export function Sensors({ detail }: { detail: WellDetail }) {
  const now = useNow(10_000);
  if (detail.sensors.length === 0) return <p class="status">{texts().noSensor}</p>;
  return (
    <Table
      head={[texts().sensor, texts().node, texts().lastHeard, texts().state]}
      rows={detail.sensors.map(({ channel, node, lastMs, fault }) => ({
        key: `${channel} ${node}`,
        cells: [
          channelName(channel),
          node,
          lastMs === undefined ? texts().never : agoWords(lastMs, now),
          fault === undefined ? texts().sensorOk : texts().sensorFaults[fault],
        ],
      }))}
    />
  );
}

/** What was normal once, in one line: only what was known of it. */
function previousBaselineWords(
  { amps, cutInKpa, cutOutKpa, ranS, cyclesPerDay }: BaselineEvent,
  format: (value: number | undefined, dimension: Dimension) => string,
): string {
  return [
    ...(amps === undefined ? [] : [format(amps, 'current')]),
    ...(cutInKpa === undefined || cutOutKpa === undefined
      ? []
      : [texts().fromTo(format(cutInKpa, 'pressure'), format(cutOutKpa, 'pressure'))]),
    ...(ranS === undefined ? [] : [texts().runsOf(formatDuration(ranS))]),
    ...(cyclesPerDay === undefined ? [] : [texts().cyclesADay(Math.round(cyclesPerDay))]),
  ].join(', ');
}
