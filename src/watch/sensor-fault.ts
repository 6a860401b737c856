/**
 * A channel is out of its span, stuck, silent or nonsense; or card and sensor cannot both be right. Said of the sensor and not of the
 * well, so that a slipped clamp is not a dead pump. Each question has its own file beside this one or a few lines here; the first
 * that finds something speaks.
 */
import { cardFault } from './card-fault.ts';
import { clampFault } from './clamp-fault.ts';
import { speaksForPressure } from './company.ts';
import { fallenFault } from './fallen-fault.ts';
import { isFresh, lastMinute, numberOf, PSI, usesPressure } from './facts.ts';
import { sayPressure, sayTime, tidy } from './say.ts';
import type { ChannelScene, Finding, Memo, Scene, Watch } from './scene.ts';
import { stuckFault } from './stuck-fault.ts';
import { weigh } from './weigh.ts';

/** `low`, `high` or `bad` (NAMUR NE 43) so many times in a row and for so long. */
const FAULTS = 5;
const FAULT_S = 300;
/** One channel silent while another of its node speaks: by exception a value comes every 60 s at least. */
const SILENT_S = 900;
/** Gauge pressure under this is no water's: a third of a vacuum. */
const NONSENSE_KPA = -5 * PSI;
const NONSENSE_MINUTES_S = 300;

export const sensorFault: Watch = {
  alarm: 'sensor-fault',
  each: 'pump',
  on: ['minute', 'cycle'],
  onDelayS: 0,
  offDelayS: 3600,
  look,
};

function look(scene: Scene, memo: Memo): Finding | null | undefined {
  // A gauge that shows nothing of the water says nothing of the card.
  const fallen = fallenFault(scene);
  if (scene.why === 'cycle') {
    if (fallen) return fallen;
    const wrongCard = cardFault(scene, memo);
    memo['cardWrong'] = wrongCard !== undefined;
    return wrongCard === 'as-before' ? undefined : (wrongCard ?? stuckFault(scene));
  }
  const found =
    channelFaults(scene, memo) ??
    fallen ??
    clampFault(scene, memo) ??
    nonsense(scene, memo) ??
    stuckFault(scene);
  // What the runs said of the card stands until a run says otherwise.
  return found ?? (memo['cardWrong'] === true ? undefined : null);
}

/** Of each channel's name: its pump, from 0 (those of the whole well are the first pump's), and where its fault is remembered. */
const NAMED = new Map<string, { pump: number; since: string }>();

/** The names are few, and asked for each minute. */
function named(channel: string): { pump: number; since: string } {
  let found = NAMED.get(channel);
  if (!found) {
    found = { pump: Number(/^p(\d+)\//.exec(channel)?.[1] ?? 1) - 1, since: `fault ${channel}` };
    NAMED.set(channel, found);
  }
  return found;
}

function channelFaults(scene: Scene, memo: Memo): Finding | undefined {
  for (const channel of scene.well.channels) {
    if (named(channel.channel).pump !== scene.pump.index) continue;
    const found = outOfSpan(scene, channel, memo) ?? silentAlone(scene, channel);
    if (found) return found;
  }
  return undefined;
}

function outOfSpan(scene: Scene, channel: ChannelScene, memo: Memo): Finding | undefined {
  const faulty = channel.fault !== undefined && channel.faultsInRow >= FAULTS;
  const { since } = named(channel.channel);
  if (!faulty) {
    if (memo[since] !== undefined) delete memo[since];
    return undefined;
  }
  memo[since] = numberOf(memo, since, scene.atMs - 60_000);
  const sinceMs = numberOf(memo, since, scene.atMs);
  return scene.atMs - sinceMs >= FAULT_S * 1000 ? reads(channel, sinceMs) : undefined;
}

const FAULT_WORDS = {
  low: 'under its span, as of a broken wire',
  high: 'over its span',
  bad: 'bad',
} as const;

function reads(channel: ChannelScene, sinceMs: number): Finding {
  const current = channel.channel.includes('current');
  return {
    sinceMs,
    why: `The ${channel.channel} channel of ${channel.node} reads ${FAULT_WORDS[channel.fault ?? 'bad']}, ${channel.faultsInRow} times in a row.`,
    evidence: {
      channel: channel.channel,
      node: channel.node,
      fault: channel.fault ?? 'bad',
      times: channel.faultsInRow,
    },
    causes: current
      ? weigh({ 'clamp-off': 0.8, 'node-offline': 0.2 })
      : weigh({ 'transducer-fault': 0.85, frozen: 0.1, 'node-offline': 0.05 }),
  };
}

function silentAlone(scene: Scene, channel: ChannelScene): Finding | undefined {
  if (
    channel.lastMs === undefined ||
    scene.atMs - channel.lastMs < SILENT_S * 1000 ||
    channel.channel.includes('contact')
  )
    return undefined;
  if (
    !isFresh(scene, channel.lastMs) ||
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
    why: `${channel.node} has sent no ${channel.channel} for ${sayTime((scene.atMs - channel.lastMs) / 1000)}, while it sends ${other.channel}.`,
    evidence: {
      channel: channel.channel,
      node: channel.node,
      silentS: Math.round((scene.atMs - channel.lastMs) / 1000),
    },
    causes: channel.channel.includes('current')
      ? weigh({ 'clamp-off': 0.6, 'node-offline': 0.4 })
      : weigh({ 'transducer-fault': 0.6, 'node-offline': 0.4 }),
  };
}

function nonsense(scene: Scene, memo: Memo): Finding | undefined {
  const kpa = speaksForPressure(scene) ? lastMinute(scene)?.kpa : undefined;
  if (!kpa || !usesPressure(scene.pump)) return undefined;
  const max = scene.well.channels.find((channel) => channel.channel === 'pressure')?.max;
  const over = max !== undefined && kpa.low > (max / 1000) * 1.02;
  if (kpa.high >= NONSENSE_KPA && !over) {
    delete memo['nonsenseMs'];
    return undefined;
  }
  memo['nonsenseMs'] = numberOf(memo, 'nonsenseMs', scene.atMs - 60_000);
  const sinceMs = numberOf(memo, 'nonsenseMs', scene.atMs);
  if (scene.atMs - sinceMs < NONSENSE_MINUTES_S * 1000) return undefined;
  return {
    sinceMs,
    why: `The transducer reads ${sayPressure(kpa.mean)}, which no water system has: it or its scale is wrong.`,
    evidence: { kpa: tidy(kpa.mean, 0) },
    causes: weigh({ 'transducer-fault': 0.8, 'bad-card': 0.2 }),
  };
}
