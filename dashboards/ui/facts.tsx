/**
 * What the card says, what is usual, and the sensors with when they were last heard. What is not
 * known is said to be so.
 */
import { channelUnit } from '../../shared/api/channel-units.ts';
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

/** A name that leads to what is told of the part. */
function PartLink({ part, name }: { part: Part; name: string }) {
  return <a href={partUrl(part)}>{name}</a>;
}

const FAULT_WORDS = { low: 'under its span', high: 'over its span', bad: 'can’t be read' } as const;

export function CardFacts({ detail, pump }: { detail: WellDetail; pump: PumpDetail }) {
  const { units } = useAppContext();
  const { card } = detail;
  const { baseline, previousBaseline } = pump;
  const format = (value: number | undefined, dimension: Dimension): string =>
    value === undefined ? 'not said' : formatQuantity(value, dimension, units);
  const formatLearned = (value: number | undefined, dimension: Dimension): string =>
    value === undefined ? 'not known yet' : formatQuantity(value, dimension, units);
  const cardFacts: Fact[] = [
    [
      <PartLink part="pressure-switch" name="Switch" />,
      card.cutInKpa === undefined && card.cutOutKpa === undefined
        ? 'not said'
        : `${format(card.cutInKpa, 'pressure')} to ${format(card.cutOutKpa, 'pressure')}`,
    ],
    [
      <PartLink part="pressure-tank" name="Tank" />,
      card.tankKind === undefined
        ? 'not said'
        : `${card.tankKind === 'plain' ? 'plain' : 'captive air'}, ${format(card.tankL, 'volume')}`,
    ],
    [<PartLink part="pressure-tank" name="Precharge" />, format(card.prechargeKpa, 'pressure')],
    [<PartLink part="relief-valve" name="Relief valve" />, format(card.reliefKpa, 'pressure')],
    [
      <PartLink part={pump.kind === 'jet' ? 'jet-pump' : 'submersible-pump'} name="Pump set at" />,
      format(card.setDepthM, 'length'),
    ],
    [<PartLink part="motor" name="Service-factor amps" />, format(pump.maxAmps, 'current')],
  ];
  const normalFacts: Fact[] = [
    ['Running amps', formatLearned(baseline?.amps, 'current')],
    ['Cut-in', formatLearned(baseline?.cutInKpa, 'pressure')],
    ['Cut-out', formatLearned(baseline?.cutOutKpa, 'pressure')],
    ['A run', baseline?.ranS === undefined ? 'not known yet' : formatDuration(baseline.ranS)],
    [
      'Cycles a day',
      baseline?.cyclesPerDay === undefined ? 'not known yet' : String(Math.round(baseline.cyclesPerDay)),
    ],
    ['Litres of a run', volumeSourceWords(detail, pump)],
  ];
  return (
    <div class="two">
      <section aria-labelledby="card">
        <h2 id="card">On the card</h2>
        <Facts facts={cardFacts} />
      </section>
      <section aria-labelledby="usual">
        <h2 id="usual">Usual here</h2>
        {baseline?.noneBecause !== undefined && (
          <p class="status">No normal found here: {baseline.noneBecause}</p>
        )}
        <Facts facts={normalFacts} />
        {baseline && (
          <p class="secondary">
            {baseline.pinned ? 'Pinned by a person' : 'Learnt'} on{' '}
            {dateWords(Date.parse(baseline.at), detail.well.timeZone, detail.nowMs)}.
          </p>
        )}
        {previousBaseline && (
          <p class="secondary">Before the last visit: {previousBaselineWords(previousBaseline, format)}.</p>
        )}
      </section>
    </div>
  );
}

export function Sensors({ detail }: { detail: WellDetail }) {
  const now = useNow(10_000);
  if (detail.sensors.length === 0) return <p class="status">No sensor has been heard yet.</p>;
  return (
    <Table
      head={['Sensor', 'Node', 'Last heard', 'State']}
      rows={detail.sensors.map(({ channel, node, lastMs, fault }) => ({
        key: `${channel} ${node}`,
        cells: [
          channelUnit(channel)?.label ?? channel,
          node,
          lastMs === undefined ? 'never' : agoWords(lastMs, now),
          fault === undefined ? 'reads' : FAULT_WORDS[fault],
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
      : [`${format(cutInKpa, 'pressure')} to ${format(cutOutKpa, 'pressure')}`]),
    ...(ranS === undefined ? [] : [`runs of ${formatDuration(ranS)}`]),
    ...(cyclesPerDay === undefined ? [] : [`${Math.round(cyclesPerDay)} cycles a day`]),
  ].join(', ');
}
