/**
 * A channel is out of its span, stuck, silent or nonsense; or card and sensor cannot both be right.
 * Said of the sensor and not of the well, so that a slipped clamp is not a dead pump. Each question
 * has its own file beside this one or a few lines here; the first that finds something speaks.
 */
import { MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cardFault, type CardMemory } from './card-fault.ts';
import { clampFault, type ClampMemory } from './clamp-fault.ts';
import { reportsPressure } from '../pump-peers.ts';
import { gaugeDropFault } from './gauge-drop-fault.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { isAfterReset, lastMinute, KPA_PER_PSI, usesPressure } from '../scene-queries.ts';
import { roundTo } from '../round.ts';
import type { ChannelScene, Scene, Watch } from '../scene.ts';
import { stuckFault } from './stuck-fault.ts';
import { weighCauses } from '../weigh-causes.ts';

/** `low`, `high` or `bad` (NAMUR NE 43) so many times in a row and for so long. */
const MIN_FAULTS = 5;
const MIN_FAULT_S = 300;
/**
 * One channel silent while another of its node speaks: by exception a value comes every 60 s at
 * least.
 */
const MIN_SILENT_S = 900;
/** Gauge pressure under this is no water's: a third of a vacuum. */
const IMPLAUSIBLE_KPA = -5 * KPA_PER_PSI;
const MIN_IMPLAUSIBLE_S = 300;

interface SensorMemory extends CardMemory, ClampMemory {
  /** Since when each faulty channel has been so. */
  faultSinceMs: Record<string, number>;
  /** Since when pressure has been none that a water system has. */
  nonsenseMs?: number;
  /** The last run contradicted the card. */
  cardWrong?: boolean;
}

export const sensorFault: Watch<SensorMemory> = {
  alarm: 'sensor-fault',
  scope: 'pump',
  triggers: ['minute', 'cycle'],
  initialMemory: () => ({ faultSinceMs: {} }),
  evaluate,
};

function evaluate(scene: Scene, memory: SensorMemory): Evaluation {
  // A gauge that shows nothing of the water says nothing of the card.
  const gaugeDrop = gaugeDropFault(scene);
  if (scene.trigger === 'cycle') {
    if (gaugeDrop) return gaugeDrop;
    const wrongCard = cardFault(scene, memory);
    memory.cardWrong = wrongCard !== undefined;
    return wrongCard ?? stuckFault(scene) ?? cannotTell('not-this-trigger');
  }
  const found =
    channelFaults(scene, memory) ??
    gaugeDrop ??
    clampFault(scene, memory) ??
    implausiblePressure(scene, memory) ??
    stuckFault(scene);
  // What the runs said of the card stands until a run says otherwise.
  return found ?? (memory.cardWrong === true ? cannotTell('not-this-trigger') : CLEAR);
}

/** Of each channel's name its pump, from 0; those of the whole well are the first pump's. */
const PUMP_OF_CHANNEL = new Map<string, number>();

/** The names are few, and asked for each minute. */
function pumpOf(channel: string): number {
  let found = PUMP_OF_CHANNEL.get(channel);
  if (found === undefined)
    PUMP_OF_CHANNEL.set(channel, (found = Number(/^p(\d+)\//.exec(channel)?.[1] ?? 1) - 1));
  return found;
}

function channelFaults(scene: Scene, memory: SensorMemory): Active | undefined {
  for (const channel of scene.well.channels) {
    if (pumpOf(channel.channel) !== scene.pump.index) continue;
    const found = outOfSpan(scene, channel, memory) ?? silentChannelFinding(scene, channel);
    if (found) return found;
  }
  return undefined;
}

function outOfSpan(scene: Scene, channel: ChannelScene, memory: SensorMemory): Active | undefined {
  const faulty = channel.fault !== undefined && channel.faultsInRow >= MIN_FAULTS;
  const { faultSinceMs } = memory;
  if (!faulty) {
    if (faultSinceMs[channel.channel] !== undefined) delete faultSinceMs[channel.channel];
    return undefined;
  }
  const sinceMs = (faultSinceMs[channel.channel] ??= scene.atMs - MINUTE_MS);
  return scene.atMs - sinceMs >= MIN_FAULT_S * 1000 ? outOfSpanFinding(channel, sinceMs) : undefined;
}

function outOfSpanFinding(channel: ChannelScene, sinceMs: number): Active {
  const current = channel.channel.includes('current');
  return {
    is: 'active',
    sinceMs,
    reason: 'channel-out-of-range',
    figures: {
      channel: channel.channel,
      node: channel.node,
      fault: channel.fault ?? 'bad',
      readings: channel.faultsInRow,
    },
    evidence: {
      channel: channel.channel,
      node: channel.node,
      fault: channel.fault ?? 'bad',
      times: channel.faultsInRow,
    },
    causes: current
      ? weighCauses({ 'clamp-off': 0.8, 'node-offline': 0.2 })
      : weighCauses({ 'transducer-fault': 0.85, frozen: 0.1, 'node-offline': 0.05 }),
  };
}

function silentChannelFinding(scene: Scene, channel: ChannelScene): Active | undefined {
  if (
    channel.lastMs === undefined ||
    scene.atMs - channel.lastMs < MIN_SILENT_S * 1000 ||
    channel.channel.includes('contact')
  )
    return undefined;
  if (
    !isAfterReset(scene, channel.lastMs) ||
    scene.well.nodes.some((node) => node.node === channel.node && node.is !== 'conflict')
  )
    return undefined;
  const other = scene.well.channels.find(
    (one) => one.node === channel.node && one.lastMs !== undefined && scene.atMs - one.lastMs < 120_000,
  );
  // A channel that has only faults to say is no silent one.
  if (!other || channel.faultsInRow > 0) return undefined;
  const silentS = (scene.atMs - channel.lastMs) / 1000;
  return {
    is: 'active',
    sinceMs: channel.lastMs,
    reason: 'channel-silent',
    figures: { channel: channel.channel, node: channel.node, silentS, otherChannel: other.channel },
    evidence: {
      channel: channel.channel,
      node: channel.node,
      silentS: Math.round(silentS),
    },
    causes: channel.channel.includes('current')
      ? weighCauses({ 'clamp-off': 0.6, 'node-offline': 0.4 })
      : weighCauses({ 'transducer-fault': 0.6, 'node-offline': 0.4 }),
  };
}

function implausiblePressure(scene: Scene, memory: SensorMemory): Active | undefined {
  const kpa = reportsPressure(scene) ? lastMinute(scene)?.kpa : undefined;
  if (!kpa || !usesPressure(scene.pump)) return undefined;
  const max = scene.well.channels.find((channel) => channel.channel === 'pressure')?.fullScale;
  const over = max !== undefined && kpa.low > (max / 1000) * 1.02;
  if (kpa.high >= IMPLAUSIBLE_KPA && !over) {
    delete memory.nonsenseMs;
    return undefined;
  }
  const sinceMs = (memory.nonsenseMs ??= scene.atMs - MINUTE_MS);
  if (scene.atMs - sinceMs < MIN_IMPLAUSIBLE_S * 1000) return undefined;
  return {
    is: 'active',
    sinceMs,
    reason: 'pressure-implausible',
    figures: { meanKpa: kpa.mean },
    evidence: { kpa: roundTo(kpa.mean, 0) },
    causes: weighCauses({ 'transducer-fault': 0.8, 'bad-card': 0.2 }),
  };
}
