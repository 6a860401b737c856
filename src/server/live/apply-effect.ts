/** What the fleet asks for, as changes of the running turn's commit; alarms are told to people. */
import { randomUUID } from 'node:crypto';
import { refusalText } from '../../core/decode/refusal-text.ts';
import type { FleetEffect } from '../../core/fleet/effects.ts';
import { fleetReasonText } from '../../core/fleet/reason-text.ts';
import type { PlacedPack } from '../../core/readings/placed-pack.ts';
import type { Emitted } from '../../core/well/emit.ts';
import type { RefusedRow } from '../../store/store.ts';
import { defaultWellKey } from './default-wells.ts';
import type { ReceivedMessage } from './intake.ts';
import { saveSnapshot } from './save.ts';
import { siteKey } from './sites.ts';
import type { LiveState } from './state.ts';

export interface EffectContext {
  nowMs: number;
  /** The message, or the act as it was written, that the effects are of. */
  received?: ReceivedMessage;
  json?: unknown;
}

export function applyEffects(live: LiveState, effects: readonly FleetEffect[], context: EffectContext): void {
  for (const effect of effects) applyEffect(live, effect, context);
}

export function applyEffect(live: LiveState, effect: FleetEffect, context: EffectContext): void {
  const { changes, counts } = live;
  switch (effect.is) {
    case 'pack':
      keepPack(live, effect.placed);
      break;
    case 'duplicate':
      counts.duplicates++;
      break;
    case 'too-late':
      counts.tooLate++;
      break;
    case 'rerun-mark':
      changes.push({ change: 'rerun-mark', well: effect.well, fromMs: effect.fromMs });
      break;
    case 'made-again':
      changes.push({ change: 'delete-derived', well: effect.well, fromMs: effect.sinceMs });
      break;
    case 'refused': {
      const { refused: reason, node } = effect.refusal;
      const detail = refusalText(effect.refusal);
      counts.refused++;
      keepRefused(live, { reason, detail, node }, effect.countOnly, context);
      break;
    }
    case 'ignored-names': {
      const { why, node } = effect;
      const detail = fleetReasonText(why);
      keepRefused(live, { reason: 'ignored-names', detail, node }, effect.countOnly, context);
      break;
    }
    case 'default-well':
      changes.push({ change: 'setting', key: defaultWellKey(effect.node), value: 'yes' });
      break;
    case 'accepted':
      keepAct(live, effect, context.json);
      break;
    case 'advanced':
      counts.advances++;
      break;
    case 'save-well':
      saveSnapshot(live, effect.pipeline, context.nowMs);
      break;
    case 'node-changed':
      live.dirtyNodes.add(effect.node);
      break;
    case 'emitted':
      keepEmitted(live, effect.emitted);
      break;
    case 'alarm':
      keepAlarm(live, effect, context.nowMs);
      break;
    case 'fault':
      live.options.log('error', fleetReasonText(effect.why));
      break;
    case 'news':
      changes.push({ change: 'news', well: effect.well, atMs: effect.atMs, body: effect.node });
      break;
    case 'site-changed':
      changes.push({ change: 'setting', key: siteKey(effect.site.site), value: JSON.stringify(effect.site) });
      break;
    // Its row is an effect of its own.
    case 'site-alarm':
    // Whoever asked answers.
    case 'rejected':
      break;
    default:
      effect satisfies never;
  }
}

function keepPack(live: LiveState, placed: PlacedPack): void {
  live.counts.packs++;
  for (const column of placed.columns) live.counts.readings += column.times.length;
  live.changes.push({ change: 'pack', pack: placed });
  if (live.hasViewers) live.liveEvents.push({ placed });
}

/** Bytes of a refused message that are kept for a look. */
const REFUSED_SAMPLE_BYTES = 512;

function keepRefused(
  live: LiveState,
  { node, ...why }: { reason: string; detail: string; node: string | undefined },
  countOnly: boolean,
  { received }: EffectContext,
): void {
  const { arrivalMs, topic, payload } = received!;
  const row: RefusedRow = {
    atMs: arrivalMs,
    topic,
    ...why,
    head: Buffer.from(payload.subarray(0, REFUSED_SAMPLE_BYTES)).toString('base64'),
    ...(node !== undefined && { node }),
    ...(countOnly && { countOnly }),
  };
  live.changes.push({ change: 'refused', row });
}

function keepAct(
  live: LiveState,
  { act, atMs, by }: Extract<FleetEffect, { is: 'accepted' }>,
  json: unknown,
): void {
  const well = act.kind === 'card-changed' ? act.card.well : 'well' in act ? act.well : undefined;
  live.changes.push({
    change: 'act',
    row: {
      id: randomUUID(),
      atMs,
      ...(by !== undefined && { by }),
      ...(well !== undefined && { well }),
      ...('node' in act && { node: act.node }),
      kind: act.kind,
      body: json,
    },
  });
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
  { row, news }: Extract<FleetEffect, { is: 'alarm' }>,
  nowMs: number,
): void {
  live.changes.push({ change: 'alarm', row });
  if (!news) return;
  if (live.hasViewers) live.liveEvents.push({ alarm: row });
  const change = { after: row, event: news.event, ...(news.before && { before: news.before }) };
  for (const notice of live.options.notify(change, { nowMs, cards: live.cards }))
    live.changes.push({ change: 'notice', row: notice });
}
