/**
 * The channels of a node: how often each is read, what makes a new value worth sending, and where
 * it comes from in the plant.
 */
import type { HelloChannel } from '../../core/decode/messages.ts';
import { channelUnit } from '../../core/domain/channels.ts';
import type { PlantSample } from '../plant/params.ts';
import type { NodePlan } from './case.ts';
import type { MeteredWell } from './metered-well.ts';

export interface Sensor {
  channel: string;
  unit: string;
  /** 0 by exception. */
  everyMs: number;
  /** By exception: the change that is worth a reading. */
  changeBy: number;
  hello: HelloChannel;
  /**
   * SI in the contract's unit; NaN where it can't be read, undefined where there is none at this
   * moment.
   */
  read: (sample: PlantSample) => number | undefined;
  fault?: (sample: PlantSample) => 0 | 1 | 2 | 3;
  /** By exception: what was sent last, and when. */
  lastSentMs: number;
  lastSent: number;
}

/** Air temperature and levels move slowly: no node reads them each second. */
const SLOW_INTERVALS_S = { temperature: 60, level: 10, store: 10 } as const;
/**
 * By exception, where the case says nothing of the channel: usual settings of such nodes (common
 * practice, no source).
 */
const DEFAULT_CHANGES = { voltage: 1, temperature: 0.2, level: 0.02, store: 0.005, contact: 0.5 } as const;
const DEFAULT_CHANGE_A = 0.1;
const DEFAULT_CHANGE_KPA = 2;

export function sensorsOf(node: NodePlan, well: MeteredWell): Sensor[] {
  const sensors: Sensor[] = [];
  for (const [pump, { phase }] of well.pumps.pumps.entries()) {
    for (let line = 0; line < phase; line++) sensors.push(clamp(node, well, pump, line));
  }
  if (!node.withoutPressure) sensors.push(transducer(node, well));
  for (const name of node.extraChannels) sensors.push(...extraSensors(node, well, name));
  return sensors;
}

function newSensor(
  node: NodePlan,
  channel: string,
  source: Pick<Sensor, 'changeBy' | 'read'> & Partial<Pick<Sensor, 'fault'>> & { everyS: number },
  helloFields: Partial<HelloChannel>,
): Sensor {
  const everyS = node.everyS === 0 ? 0 : source.everyS;
  const unit = channelUnit(channel);
  if (unit === undefined) throw new RangeError(`Cannot play a node: the contract has no channel ${channel}`);
  return {
    channel,
    unit,
    everyMs: everyS * 1000,
    changeBy: source.changeBy,
    hello: { n: channel, u: unit, every: everyS, ...helloFields },
    read: source.read,
    ...(source.fault && { fault: source.fault }),
    lastSentMs: Number.NEGATIVE_INFINITY,
    lastSent: Number.NaN,
  };
}

function clamp(node: NodePlan, well: MeteredWell, pump: number, line: number): Sensor {
  const base = line === 0 ? 'current' : `current-${line + 1}`;
  return newSensor(
    node,
    pump === 0 ? base : `p${pump + 1}/${base}`,
    {
      everyS: node.meanS ?? node.everyS,
      changeBy: node.changeA ?? DEFAULT_CHANGE_A,
      read: ({ amps }) => amps[pump]?.[line],
    },
    { over: node.meanS ?? 1, is: 'mean', step: well.clamp.stepA, max: well.clamp.maxA },
  );
}

function transducer(node: NodePlan, well: MeteredWell): Sensor {
  return newSensor(
    node,
    'pressure',
    {
      everyS: node.everyS,
      changeBy: 1000 * (node.changeKpa ?? DEFAULT_CHANGE_KPA),
      read: ({ kpa }) => (kpa === undefined ? undefined : Math.round(kpa * 1000)),
      fault: ({ kpaFault }) => kpaFault ?? 0,
    },
    // A 150 psi transducer, the usual one at a tank tee.
    { is: 'spot', step: 1000 * well.transducer.stepKpa, max: 1_034_000 },
  );
}

/**
 * A channel beside current and pressure. Slow ones are read at a whole number of the node's
 * periods.
 */
function extraSensors(node: NodePlan, well: MeteredWell, name: string): Sensor[] {
  const slow = (atLeastS: number): number => node.everyS * Math.ceil(atLeastS / (node.everyS || 1));
  switch (name) {
    case 'voltage':
      return Array.from({ length: well.pumps.pumps[0]!.phase }, (_, line) =>
        newSensor(
          node,
          line === 0 ? 'voltage' : `voltage-${line + 1}`,
          {
            everyS: node.everyS,
            changeBy: DEFAULT_CHANGES.voltage,
            read: ({ volts }) => rounded(volts[line], 0.1),
          },
          { over: 1, is: 'mean', step: 0.1, max: 600 },
        ),
      );
    case 'temperature':
      return [
        newSensor(
          node,
          name,
          {
            everyS: slow(SLOW_INTERVALS_S.temperature),
            changeBy: DEFAULT_CHANGES.temperature,
            read: ({ temperatureC }) => rounded(temperatureC, 0.1),
          },
          { is: 'spot', step: 0.1 },
        ),
      ];
    case 'level':
    case 'store':
      return [
        newSensor(
          node,
          name,
          {
            everyS: slow(SLOW_INTERVALS_S[name]),
            changeBy: DEFAULT_CHANGES[name],
            read: (sample) => rounded(name === 'level' ? sample.levelM : sample.storeM, 0.001),
          },
          { is: 'spot', step: 0.001 },
        ),
      ];
    case 'contact':
      return [
        newSensor(
          node,
          name,
          {
            everyS: node.everyS,
            changeBy: DEFAULT_CHANGES.contact,
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
