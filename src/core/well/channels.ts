/**
 * What is remembered of each channel: how often it speaks, when it last did, whether it is stuck or
 * at fault; and the two-point calibration in force.
 */
import { faultOf } from '../readings/segment.ts';
import { HOUR_MS } from '../../../shared/units/duration.ts';
import { sourceAt, sourcesOf } from '../domain/sources.ts';
import { newPace, recordReadingTime } from '../cycles/pace.ts';
import { channelName } from '../domain/channels.ts';
import type { ChannelScene } from '../alarms/scene.ts';
import type { ChannelState, Correction, WellState } from './well-state.ts';

const MIN_STUCK_MS = HOUR_MS;
/** Three of the slowest steady steps. */
const MIN_FLAT_MS = 30_000;
const FAULT_NAMES = [undefined, 'low', 'high', 'bad'] as const;

export function findChannel(well: WellState, code: number): ChannelState | undefined {
  for (const channel of well.channels) if (channel.code === code) return channel;
  return undefined;
}

/** The channel, made when it first speaks. */
export function channelFor(well: WellState, code: number): ChannelState {
  const known = findChannel(well, code);
  if (known) return known;
  const made: ChannelState = {
    code,
    pace: newPace(),
    lastMs: -1,
    value: 0,
    unchangedSinceMs: -1,
    previousValue: undefined,
    stepMs: undefined,
    faultsInRow: 0,
    fault: 0,
    fullScale: undefined,
    spanMs: undefined,
  };
  well.channels.push(made);
  well.channels.sort((a, b) => a.code - b.code);
  return made;
}

export function recordReading(channel: ChannelState, tMs: number, value: number): void {
  if (value !== channel.value || channel.lastMs < 0) {
    if (channel.lastMs >= 0) {
      channel.previousValue = channel.value;
      channel.stepMs = tMs - channel.lastMs;
    }
    channel.value = value;
    channel.unchangedSinceMs = tMs;
  }
  channel.lastMs = tMs;
  channel.faultsInRow = 0;
  recordReadingTime(channel.pace, tMs);
}

export function recordFault(channel: ChannelState, fault: number): void {
  channel.faultsInRow++;
  channel.fault = faultOf(fault);
}

/**
 * The correction of each calibrated channel that the well reads from at `tMs`, by the well's
 * channel code.
 */
export function correctionsAt(well: WellState, tMs: number): Record<string, Correction> {
  const found: Record<string, Correction> = {};
  if (!hasAny(well.corrections)) return found;
  for (const source of sourcesOf(well.card)) {
    if (tMs < source.sinceMs || tMs >= source.untilMs) continue;
    const correction = well.corrections[`${source.node}:${source.nodeChannel}`];
    if (correction) found[source.code] = correction;
  }
  return found;
}

/**
 * Looks up what each channel can show at most, and what one reading of it stands for: a card may
 * have it read from another node since.
 */
export function updateFullScales(well: WellState, tMs: number): void {
  const { fullScales, readingSpansMs } = well;
  if (!fullScales && !readingSpansMs) return;
  for (const channel of well.channels) {
    const source = sourceAt(well.card, channel.code, tMs);
    const name = source && `${source.node}:${source.nodeChannel}`;
    channel.fullScale = name === undefined ? undefined : fullScales?.[name];
    channel.spanMs = name === undefined ? undefined : readingSpansMs?.[name];
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
    const wasRead = lastMs >= 0;
    const isStuck = wasRead && lastMs - channel.unchangedSinceMs > MIN_STUCK_MS;
    scenes.push({
      channel: nameOf(code),
      node: nodeOf(well, code, atMs),
      lastMs: wasRead ? lastMs : undefined,
      faultsInRow,
      fault: faultsInRow > 0 ? FAULT_NAMES[channel.fault] : undefined,
      stuckSinceMs: isStuck ? channel.unchangedSinceMs : undefined,
      flat: flatOf(channel),
    });
  }
  return scenes;
}

function flatOf(channel: ChannelState): ChannelScene['flat'] {
  const { lastMs, unchangedSinceMs: sinceMs, value, previousValue, stepMs } = channel;
  if (lastMs - sinceMs < MIN_FLAT_MS || previousValue === undefined || stepMs === undefined) return undefined;
  return { sinceMs, value, before: previousValue, stepMs };
}

/** Names are made once: they are asked for each minute. */
const CHANNEL_NAMES: string[] = [];

function nameOf(code: number): string {
  return (CHANNEL_NAMES[code] ??= channelName(code));
}

function nodeOf(well: WellState, code: number, atMs: number): string {
  return sourceAt(well.card, code, atMs)?.node ?? well.card.well;
}
