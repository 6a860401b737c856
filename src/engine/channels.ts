/**
 * What is remembered of each channel: how often it speaks, when it last did, whether it is stuck or at fault; and the
 * two-point calibration in force.
 */
import { sourceAt, sourcesOf } from '../card/reads.ts';
import { newPace, paceReading } from '../cycles/pace.ts';
import { channelName } from '../card/channels.ts';
import type { ChannelScene } from '../watch/scene.ts';
import type { ChannelState, Correction, WellState } from './state.ts';

const STUCK_AFTER_MS = 3_600_000;
/** Three of the slowest steady steps. */
const FLAT_AFTER_MS = 30_000;
const FAULT_WORDS = [undefined, 'low', 'high', 'bad'] as const;

export function knownChannel(well: WellState, code: number): ChannelState | undefined {
  for (const channel of well.channels) if (channel.code === code) return channel;
  return undefined;
}

/** The channel, made when it first speaks. */
export function channelOf(well: WellState, code: number): ChannelState {
  const known = knownChannel(well, code);
  if (known) return known;
  const made: ChannelState = {
    code,
    pace: newPace(),
    lastMs: -1,
    value: 0,
    sameSinceMs: -1,
    before: undefined,
    stepMs: undefined,
    faultsInRow: 0,
    fault: 0,
    most: undefined,
  };
  well.channels.push(made);
  well.channels.sort((a, b) => a.code - b.code);
  return made;
}

export function noteGood(channel: ChannelState, tMs: number, value: number): void {
  if (value !== channel.value || channel.lastMs < 0) {
    if (channel.lastMs >= 0) {
      channel.before = channel.value;
      channel.stepMs = tMs - channel.lastMs;
    }
    channel.value = value;
    channel.sameSinceMs = tMs;
  }
  channel.lastMs = tMs;
  channel.faultsInRow = 0;
  paceReading(channel.pace, tMs);
}

export function noteFault(channel: ChannelState, fault: number): void {
  channel.faultsInRow++;
  channel.fault = (fault & 3) as ChannelState['fault'];
}

/** The correction of each calibrated channel that the well reads from at `tMs`, by the well's channel code. */
export function correctionsAt(well: WellState, tMs: number): Record<string, Correction> {
  const found: Record<string, Correction> = {};
  if (!hasAny(well.corrections)) return found;
  for (const source of sourcesOf(well.card)) {
    if (tMs < source.sinceMs || tMs >= source.untilMs) continue;
    const correction = well.corrections[`${source.node}:${source.from}`];
    if (correction) found[source.code] = correction;
  }
  return found;
}

/** Looks up what each channel can show at most: a card may have it read from another node since. */
export function noteFullScales(well: WellState, tMs: number): void {
  const { fullScales } = well;
  if (!fullScales) return;
  for (const channel of well.channels) {
    const source = sourceAt(well.card, channel.code, tMs);
    channel.most = source && fullScales[`${source.node}:${source.from}`];
  }
}

/** Most wells have no calibrated channel, and this is asked each minute. */
function hasAny(corrections: WellState['corrections']): boolean {
  for (const _ in corrections) return true;
  return false;
}

export function channelScenes(well: WellState, atMs: number): ChannelScene[] {
  const scenes: ChannelScene[] = [];
  for (const channel of well.channels) {
    const { code, lastMs, faultsInRow } = channel;
    const scene: ChannelScene = { channel: nameOf(code), node: nodeOf(well, code, atMs), faultsInRow };
    const fault = faultsInRow > 0 ? FAULT_WORDS[channel.fault] : undefined;
    if (lastMs >= 0) scene.lastMs = lastMs;
    if (fault) scene.fault = fault;
    if (lastMs >= 0 && lastMs - channel.sameSinceMs > STUCK_AFTER_MS)
      scene.stuckSinceMs = channel.sameSinceMs;
    const flat = flatOf(channel);
    if (flat) scene.flat = flat;
    scenes.push(scene);
  }
  return scenes;
}

function flatOf(channel: ChannelState): ChannelScene['flat'] {
  const { lastMs, sameSinceMs: sinceMs, value, before, stepMs } = channel;
  if (lastMs - sinceMs < FLAT_AFTER_MS || before === undefined || stepMs === undefined) return undefined;
  return { sinceMs, value, before, stepMs };
}

/** Names are made once: they are asked for each minute. */
const NAMES: string[] = [];

function nameOf(code: number): string {
  return (NAMES[code] ??= channelName(code));
}

function nodeOf(well: WellState, code: number, atMs: number): string {
  return sourceAt(well.card, code, atMs)?.node ?? well.card.well;
}
