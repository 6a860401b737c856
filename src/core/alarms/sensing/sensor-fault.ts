/**
 * A channel is out of its span, stuck, silent or nonsense; or card and sensor cannot both be right. Said of the sensor and not of the
 * well, so that a slipped clamp is not a dead pump. Each question has its own file beside this one or a few lines here; the first
 * that finds something speaks.
 */
import { HOUR_S, MINUTE_MS } from '../../../../shared/units/duration.ts';
import { cardFault } from './card-fault.ts';
import { clampFault } from './clamp-fault.ts';
import { reportsPressure } from '../pump-peers.ts';
import { gaugeDropFault } from './gauge-drop-fault.ts';
import { isAfterReset, lastMinute, memoryNumber, KPA_PER_PSI, usesPressure } from '../scene-queries.ts';
import { formatPressure, formatDuration, roundTo } from '../format.ts';
import type { ChannelScene, Finding, WatchMemory, Scene, Watch } from '../scene.ts';
import { stuckFault } from './stuck-fault.ts';
import { weighCauses } from '../weigh-causes.ts';

/** `low`, `high` or `bad` (NAMUR NE 43) so many times in a row and for so long. */
const MIN_FAULTS = 5;
const MIN_FAULT_S = 300;
/** One channel silent while another of its node speaks: by exception a value comes every 60 s at least. */
const MIN_SILENT_S = 900;
/** Gauge pressure under this is no water's: a third of a vacuum. */
const IMPLAUSIBLE_KPA = -5 * KPA_PER_PSI;
const MIN_IMPLAUSIBLE_S = 300;

export const sensorFault: Watch = {
  alarm: 'sensor-fault',
  scope: 'pump',
  triggers: ['minute', 'cycle'],
  onDelayS: 0,
  offDelayS: HOUR_S,
  evaluate,
};

function evaluate(scene: Scene, memo: WatchMemory): Finding | null | undefined {
  // A gauge that shows nothing of the water says nothing of the card.
  const gaugeDrop = gaugeDropFault(scene);
  if (scene.trigger === 'cycle') {
    if (gaugeDrop) return gaugeDrop;
    const wrongCard = cardFault(scene, memo);
    memo['cardWrong'] = wrongCard !== undefined;
    return wrongCard === 'unchanged' ? undefined : (wrongCard ?? stuckFault(scene));
  }
  const found =
    channelFaults(scene, memo) ??
    gaugeDrop ??
    clampFault(scene, memo) ??
    implausiblePressure(scene, memo) ??
    stuckFault(scene);
  // What the runs said of the card stands until a run says otherwise.
  return found ?? (memo['cardWrong'] === true ? undefined : null);
}

/** Of each channel's name: its pump, from 0 (those of the whole well are the first pump's), and where its fault is remembered. */
const CHANNEL_INFO = new Map<string, { pump: number; since: string }>();

/** The names are few, and asked for each minute. */
function channelInfo(channel: string): { pump: number; since: string } {
  let found = CHANNEL_INFO.get(channel);
  if (!found) {
    found = { pump: Number(/^p(\d+)\//.exec(channel)?.[1] ?? 1) - 1, since: `fault ${channel}` };
    CHANNEL_INFO.set(channel, found);
  }
  return found;
}

function channelFaults(scene: Scene, memo: WatchMemory): Finding | undefined {
  for (const channel of scene.well.channels) {
    if (channelInfo(channel.channel).pump !== scene.pump.index) continue;
    const found = outOfSpan(scene, channel, memo) ?? silentChannelFinding(scene, channel);
    if (found) return found;
  }
  return undefined;
}

function outOfSpan(scene: Scene, channel: ChannelScene, memo: WatchMemory): Finding | undefined {
  const faulty = channel.fault !== undefined && channel.faultsInRow >= MIN_FAULTS;
  const { since } = channelInfo(channel.channel);
  if (!faulty) {
    if (memo[since] !== undefined) delete memo[since];
    return undefined;
  }
  memo[since] = memoryNumber(memo, since, scene.atMs - MINUTE_MS);
  const sinceMs = memoryNumber(memo, since, scene.atMs);
  return scene.atMs - sinceMs >= MIN_FAULT_S * 1000 ? outOfSpanFinding(channel, sinceMs) : undefined;
}

const FAULT_TEXT = {
  low: 'under its span, as of a broken wire',
  high: 'over its span',
  bad: 'bad',
} as const;

function outOfSpanFinding(channel: ChannelScene, sinceMs: number): Finding {
  const current = channel.channel.includes('current');
  return {
    sinceMs,
    why: `The ${channel.channel} channel of ${channel.node} reads ${FAULT_TEXT[channel.fault ?? 'bad']}, ${channel.faultsInRow} times in a row.`,
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

function silentChannelFinding(scene: Scene, channel: ChannelScene): Finding | undefined {
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
  return {
    sinceMs: channel.lastMs,
    why: `${channel.node} has sent no ${channel.channel} for ${formatDuration((scene.atMs - channel.lastMs) / 1000)}, while it sends ${other.channel}.`,
    evidence: {
      channel: channel.channel,
      node: channel.node,
      silentS: Math.round((scene.atMs - channel.lastMs) / 1000),
    },
    causes: channel.channel.includes('current')
      ? weighCauses({ 'clamp-off': 0.6, 'node-offline': 0.4 })
      : weighCauses({ 'transducer-fault': 0.6, 'node-offline': 0.4 }),
  };
}

function implausiblePressure(scene: Scene, memo: WatchMemory): Finding | undefined {
  const kpa = reportsPressure(scene) ? lastMinute(scene)?.kpa : undefined;
  if (!kpa || !usesPressure(scene.pump)) return undefined;
  const max = scene.well.channels.find((channel) => channel.channel === 'pressure')?.fullScale;
  const over = max !== undefined && kpa.low > (max / 1000) * 1.02;
  if (kpa.high >= IMPLAUSIBLE_KPA && !over) {
    delete memo['nonsenseMs'];
    return undefined;
  }
  memo['nonsenseMs'] = memoryNumber(memo, 'nonsenseMs', scene.atMs - MINUTE_MS);
  const sinceMs = memoryNumber(memo, 'nonsenseMs', scene.atMs);
  if (scene.atMs - sinceMs < MIN_IMPLAUSIBLE_S * 1000) return undefined;
  return {
    sinceMs,
    why: `The transducer reads ${formatPressure(kpa.mean)}, which no water system has: it or its scale is wrong.`,
    evidence: { kpa: roundTo(kpa.mean, 0) },
    causes: weighCauses({ 'transducer-fault': 0.8, 'bad-card': 0.2 }),
  };
}
