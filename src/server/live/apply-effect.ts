/** What the fleet asks for, as changes of the running turn's commit; alarms are told to people. */
import type { FleetEffect } from '../../core/fleet/effects.ts';
import type { Emitted } from '../../core/well/emit.ts';
import { siteKey } from './sites.ts';
import type { LiveState } from './state.ts';

/** The function that takes the effects of what happens at `nowMs`. */
export function applyEffects(live: LiveState, nowMs: number): (effect: FleetEffect) => void {
  return (effect) => applyEffect(live, effect, nowMs);
}

function applyEffect(live: LiveState, effect: FleetEffect, nowMs: number): void {
  switch (effect.is) {
    case 'emitted':
      keepEmitted(live, effect.emitted);
      break;
    case 'alarm':
      keepAlarm(live, effect, nowMs);
      break;
    case 'site-alarm':
      break;
    case 'fault':
      live.options.log('error', effect.sentence);
      break;
    case 'news':
      live.changes.push({ change: 'news', well: effect.well, atMs: effect.atMs, body: effect.node });
      break;
    case 'site-changed': {
      const { site } = effect;
      live.changes.push({ change: 'setting', key: siteKey(site.site), value: JSON.stringify(site) });
      break;
    }
    case 'node-changed':
      // What was handed on is no news of its book any more, in the same commit: a crash tells it
      // neither twice nor never.
      live.dirtyNodes.add(effect.node);
      break;
    default:
      effect satisfies never;
  }
}

/** What an engine said; of an alarm its row is kept. */
function keepEmitted(live: LiveState, { event, orderMs, cycle }: Emitted): void {
  switch (event.event) {
    case 'cycle':
      live.changes.push({
        change: 'cycle',
        row: {
          event,
          startedMs: cycle!.startedMs,
          stoppedMs: cycle!.stoppedMs,
          ...(cycle!.shape && { shape: cycle!.shape }),
        },
      });
      break;
    case 'day':
      live.changes.push({ change: 'day', event, endedMs: orderMs });
      break;
    case 'baseline':
      live.changes.push({ change: 'baseline', event, atMs: orderMs });
      break;
    case 'alarm':
      break;
    default:
      event satisfies never;
  }
}

function keepAlarm(
  live: LiveState,
  { row, told }: Extract<FleetEffect, { is: 'alarm' }>,
  nowMs: number,
): void {
  live.changes.push({ change: 'alarm', row });
  if (!told) return;
  if (live.hasViewers) live.liveEvents.push({ alarm: row });
  const change = { after: row, event: told.event, ...(told.before && { before: told.before }) };
  for (const notice of live.options.notify(change, { nowMs, cards: live.cards }))
    live.changes.push({ change: 'notice', row: notice });
}
