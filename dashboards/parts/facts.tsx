/** What the card says, what is usual, and the sensors with when they were last heard. What is not known is said to be so. */
import { channelUnit } from '../../shared/api/channel-units.ts';
import { agoWords, dateWords } from '../../shared/api/time-words.ts';
import { sayDuration } from '../../shared/words/format.ts';
import type { BaselineEvent } from '../../shared/api/events.ts';
import type { PumpDetail, WellDetail } from '../../shared/api/wells.ts';
import { printQuantity } from '../../shared/quantity/print-quantity.ts';
import type { Dimension } from '../../shared/quantity/units.ts';
import type { Part } from '../../shared/words/part-words.ts';
import { useNow } from '../data/clock.ts';
import { useSurroundings } from '../data/settings.ts';
import { partAddress } from '../page-of.ts';
import { litresWords } from '../words/litres.ts';

/** With the part that it is of, where there is one to read about. */
type Fact = [name: string, value: string, part?: Part];

const FAULT_WORDS = { low: 'under its span', high: 'over its span', bad: 'can’t be read' } as const;

export function CardFacts({ detail, pump }: { detail: WellDetail; pump: PumpDetail }) {
  const { units } = useSurroundings();
  const { card } = detail;
  const { baseline, before } = pump;
  const print = (value: number | undefined, dimension: Dimension): string =>
    value === undefined ? 'not said' : printQuantity(value, dimension, units);
  const learnt = (value: number | undefined, dimension: Dimension): string =>
    value === undefined ? 'not known yet' : printQuantity(value, dimension, units);
  const said: Fact[] = [
    [
      'Switch',
      card.cutInKpa === undefined && card.cutOutKpa === undefined
        ? 'not said'
        : `${print(card.cutInKpa, 'pressure')} to ${print(card.cutOutKpa, 'pressure')}`,
      'pressure-switch',
    ],
    [
      'Tank',
      card.tankKind === undefined
        ? 'not said'
        : `${card.tankKind === 'plain' ? 'plain' : 'captive air'}, ${print(card.tankL, 'volume')}`,
      'pressure-tank',
    ],
    ['Precharge', print(card.prechargeKpa, 'pressure'), 'pressure-tank'],
    ['Relief valve', print(card.reliefKpa, 'pressure'), 'relief-valve'],
    ['Pump set at', print(card.setDepthM, 'length'), pump.kind === 'jet' ? 'jet-pump' : 'submersible-pump'],
    ['Service-factor amps', print(pump.maxAmps, 'current'), 'motor'],
  ];
  const usual: Fact[] = [
    ['Running amps', learnt(baseline?.amps, 'current')],
    ['Cut-in', learnt(baseline?.cutInKpa, 'pressure')],
    ['Cut-out', learnt(baseline?.cutOutKpa, 'pressure')],
    ['A run', baseline?.ranS === undefined ? 'not known yet' : sayDuration(baseline.ranS)],
    [
      'Cycles a day',
      baseline?.cyclesPerDay === undefined ? 'not known yet' : String(Math.round(baseline.cyclesPerDay)),
    ],
    ['Litres of a run', litresWords(detail, pump)],
  ];
  return (
    <div class="two">
      <section aria-labelledby="card">
        <h2 id="card">On the card</h2>
        <Facts facts={said} />
      </section>
      <section aria-labelledby="usual">
        <h2 id="usual">Usual here</h2>
        {baseline?.noneBecause !== undefined && (
          <p class="said">No normal found here: {baseline.noneBecause}</p>
        )}
        <Facts facts={usual} />
        {baseline && (
          <p class="doing">
            {baseline.pinned ? 'Pinned by a person' : 'Learnt'} on{' '}
            {dateWords(Date.parse(baseline.at), detail.well.timeZone, detail.nowMs)}.
          </p>
        )}
        {before && <p class="doing">Before the last visit: {formerly(before, print)}.</p>}
      </section>
    </div>
  );
}

export function Facts({ facts }: { facts: readonly Fact[] }) {
  return (
    <dl class="facts">
      {facts.map(([name, value, part]) => (
        <div key={name}>
          <dt>{part === undefined ? name : <a href={partAddress(part)}>{name}</a>}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

export function Sensors({ detail }: { detail: WellDetail }) {
  const now = useNow(10_000);
  if (detail.sensors.length === 0) return <p class="said">No sensor has been heard yet.</p>;
  return (
    <div class="table">
      <table>
        <thead>
          <tr>
            <th scope="col">Sensor</th>
            <th scope="col">Node</th>
            <th scope="col">Last heard</th>
            <th scope="col">State</th>
          </tr>
        </thead>
        <tbody>
          {detail.sensors.map(({ channel, node, lastMs, fault }) => (
            <tr key={`${channel} ${node}`}>
              <th scope="row">{channelUnit(channel)?.label ?? channel}</th>
              <td>{node}</td>
              <td>{lastMs === undefined ? 'never' : agoWords(lastMs, now)}</td>
              <td>{fault === undefined ? 'reads' : FAULT_WORDS[fault]}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What was normal once, in one line: only what was known of it. */
function formerly(
  { amps, cutInKpa, cutOutKpa, ranS, cyclesPerDay }: BaselineEvent,
  print: (value: number | undefined, dimension: Dimension) => string,
): string {
  return [
    ...(amps === undefined ? [] : [print(amps, 'current')]),
    ...(cutInKpa === undefined || cutOutKpa === undefined
      ? []
      : [`${print(cutInKpa, 'pressure')} to ${print(cutOutKpa, 'pressure')}`]),
    ...(ranS === undefined ? [] : [`runs of ${sayDuration(ranS)}`]),
    ...(cyclesPerDay === undefined ? [] : [`${Math.round(cyclesPerDay)} cycles a day`]),
  ].join(', ');
}
