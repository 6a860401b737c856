/** The channels of a node: how often each is read, what makes a new value worth sending, and where it comes from in the plant. */
import type { HelloChannel } from '../../wire/messages.ts';
import { channelUnit } from '../../card/channels.ts';
import type { PlantSample, WellPlan } from '../plant/params.ts';
import type { NodePlan } from './case.ts';

export interface Sensor {
  channel: string;
  unit: string;
  /** 0 by exception. */
  everyMs: number;
  /** By exception: the change that is worth a reading. */
  changeBy: number;
  hello: HelloChannel;
  /** SI in the contract's unit; NaN where it can't be read, undefined where there is none at this moment. */
  read: (sample: PlantSample) => number | undefined;
  fault?: (sample: PlantSample) => 0 | 1 | 2 | 3;
  /** By exception: what was sent last, and when. */
  sentMs: number;
  sent: number;
}

/** Air temperature and levels move slowly: no node reads them each second. */
const SLOW_S = { temperature: 60, level: 10, store: 10 } as const;
/** By exception, where the case says nothing of the channel: usual settings of such nodes (common practice, no source). */
const CHANGES = { voltage: 1, temperature: 0.2, level: 0.02, store: 0.005, contact: 0.5 } as const;
const AMPS = 0.1;
const KPA = 2;

export function sensorsOf(node: NodePlan, well: WellPlan): Sensor[] {
  const sensors: Sensor[] = [];
  for (const [pump, { phase }] of well.pumps.pumps.entries()) {
    for (let line = 0; line < phase; line++) sensors.push(clamp(node, well, pump, line));
  }
  if (!node.withoutPressure) sensors.push(transducer(node, well));
  for (const name of node.also) sensors.push(...more(node, well, name));
  return sensors;
}

function sensor(
  node: NodePlan,
  channel: string,
  how: Pick<Sensor, 'changeBy' | 'read'> & Partial<Pick<Sensor, 'fault'>> & { everyS: number },
  says: Partial<HelloChannel>,
): Sensor {
  const everyS = node.everyS === 0 ? 0 : how.everyS;
  const unit = channelUnit(channel);
  if (unit === undefined) throw new RangeError(`Cannot play a node: the contract has no channel ${channel}`);
  return {
    channel,
    unit,
    everyMs: everyS * 1000,
    changeBy: how.changeBy,
    hello: { n: channel, u: unit, every: everyS, ...says },
    read: how.read,
    ...(how.fault && { fault: how.fault }),
    sentMs: Number.NEGATIVE_INFINITY,
    sent: Number.NaN,
  };
}

function clamp(node: NodePlan, well: WellPlan, pump: number, line: number): Sensor {
  const base = line === 0 ? 'current' : `current-${line + 1}`;
  return sensor(
    node,
    pump === 0 ? base : `p${pump + 1}/${base}`,
    { everyS: node.everyS, changeBy: node.changeA ?? AMPS, read: ({ amps }) => amps[pump]?.[line] },
    { over: 1, is: 'mean', step: well.clamp.stepA, max: well.clamp.maxA },
  );
}

function transducer(node: NodePlan, well: WellPlan): Sensor {
  return sensor(
    node,
    'pressure',
    {
      everyS: node.everyS,
      changeBy: 1000 * (node.changeKpa ?? KPA),
      read: ({ kpa }) => (kpa === undefined ? undefined : Math.round(kpa * 1000)),
      fault: ({ kpaFault }) => kpaFault ?? 0,
    },
    // A 150 psi transducer, the usual one at a tank tee.
    { is: 'spot', step: 1000 * well.transducer.stepKpa, max: 1_034_000 },
  );
}

/** A channel beside current and pressure. Slow ones are read at a whole number of the node's periods. */
function more(node: NodePlan, well: WellPlan, name: string): Sensor[] {
  const slow = (atLeastS: number): number => node.everyS * Math.ceil(atLeastS / (node.everyS || 1));
  switch (name) {
    case 'voltage':
      return Array.from({ length: well.pumps.pumps[0]!.phase }, (_, line) =>
        sensor(
          node,
          line === 0 ? 'voltage' : `voltage-${line + 1}`,
          { everyS: node.everyS, changeBy: CHANGES.voltage, read: ({ volts }) => rounded(volts[line], 0.1) },
          { over: 1, is: 'mean', step: 0.1, max: 600 },
        ),
      );
    case 'temperature':
      return [
        sensor(
          node,
          name,
          {
            everyS: slow(SLOW_S.temperature),
            changeBy: CHANGES.temperature,
            read: ({ temperatureC }) => rounded(temperatureC, 0.1),
          },
          { is: 'spot', step: 0.1 },
        ),
      ];
    case 'level':
    case 'store':
      return [
        sensor(
          node,
          name,
          {
            everyS: slow(SLOW_S[name]),
            changeBy: CHANGES[name],
            read: (sample) => rounded(name === 'level' ? sample.levelM : sample.storeM, 0.001),
          },
          { is: 'spot', step: 0.001 },
        ),
      ];
    case 'contact':
      return [
        sensor(
          node,
          name,
          {
            everyS: node.everyS,
            changeBy: CHANGES.contact,
            read: ({ calls }) => (calls === undefined ? undefined : Number(calls)),
          },
          { is: 'spot' },
        ),
      ];
    default:
      throw new RangeError(`Cannot play a node: nothing in the plant shows ${name}`);
  }
}

function rounded(value: number | undefined, step: number): number | undefined {
  return value === undefined ? undefined : Math.round(value / step) / Math.round(1 / step);
}
