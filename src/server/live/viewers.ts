/** Whoever looks at a page sees what a turn changed; nothing is made for nobody. */
import { channelName } from '../../core/domain/channels.ts';
import { feedsOf } from '../../core/domain/sources.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import type { LiveChange, LiveReadings } from '../../http/deps.ts';
import type { LiveState } from './state.ts';
import type { TurnResult } from './turn.ts';

export function notifyViewers(
  live: LiveState,
  viewers: ReadonlySet<(change: LiveChange) => void>,
  { committed, advanced }: TurnResult,
  hadMessages: boolean,
): void {
  if (viewers.size === 0) return;
  const sendToAll = (change: LiveChange): void => {
    for (const fn of viewers) fn(change);
  };
  for (const shown of live.liveEvents.splice(0)) {
    if ('alarm' in shown) sendToAll({ is: 'alarm', alarm: shown.alarm });
    else for (const change of readingsOf(live, shown.placed)) sendToAll(change);
  }
  if (hadMessages || committed) for (const well of advanced) sendToAll({ is: 'well', well });
}

function readingsOf(live: LiveState, placed: PlacedPack): LiveChange[] {
  const byWell = new Map<string, LiveReadings[]>();
  if (placed.kind === 'start' || placed.timeUnknown) return [];
  for (const { channel, times, values } of placed.columns) {
    for (const feed of feedsOf(live.readTable, placed.node, channel)) {
      const columns = byWell.get(feed.well) ?? [];
      columns.push({ channel: channelName(feed.code), timesMs: times, values });
      byWell.set(feed.well, columns);
    }
  }
  return [...byWell].map(([well, columns]) => ({ is: 'readings', well, columns }));
}
