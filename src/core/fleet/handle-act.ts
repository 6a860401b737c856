/** What people do: checked, given its time, and put among the inputs of the wells it is for. */
import type { Act } from '../domain/act.ts';
import { recordAcknowledgment } from './alarm-rows.ts';
import { wellCeiling } from './ceiling.ts';
import type { EmitEffect } from './effects.ts';
import type { Fleet } from './fleet.ts';
import { dispatchNews, excuseOutage } from './node-news.ts';
import { ensureWellForNode } from './nodes.ts';
import { applyNewCard, pipelinesOfAct } from './routing.ts';
import type { FleetReason } from './reason-text.ts';
import { addInput, type WellPipeline } from './well-pipeline.ts';

export interface ActInput {
  act: Act;
  /** Who did it, where known. */
  by?: string;
}

/** Does what a person wrote (contract, section 6). */
export function handleAct(fleet: Fleet, input: ActInput, nowMs: number, emit: EmitEffect): void {
  const { act, by } = input;
  const ofSite = act.kind === 'acknowledged' && isSiteAlarm(fleet, act);
  const why = ofSite ? undefined : whyNot(fleet, act);
  if (why !== undefined) {
    emit({ is: 'rejected', why });
    return;
  }
  // No well's engine knows of a site's alarm: its row alone remembers that it was seen. A tick only
  // has time go on.
  const pipelines = ofSite || act.kind === 'tick' ? [] : pipelinesOfAct(fleet, act);
  const atMs = actTimeFor(pipelines, nowMs);
  if (act.kind === 'card-changed') applyCardChange(fleet, act, atMs, emit);
  if (act.kind === 'server-away') {
    excuseOutage(fleet, act.fromMs, atMs);
    dispatchNews(fleet, atMs, emit);
  }
  const timed = { act, atMs, ...(by !== undefined && { by }) };
  emit({ is: 'accepted', ...timed });
  // A card may have made its well.
  for (const pipeline of act.kind === 'card-changed' ? pipelinesOfAct(fleet, act) : pipelines) {
    addInput(pipeline, timed);
    fleet.dirtyWells.add(pipeline);
  }
  if (act.kind === 'acknowledged') recordAcknowledgment(fleet, act, timed, emit);
}

type ActOf<K extends Act['kind']> = Extract<Act, { kind: K }>;

/** An alarm of a whole site is told under the site's name, which is no well's. */
function isSiteAlarm(fleet: Fleet, act: ActOf<'acknowledged'>): boolean {
  return (fleet.knownAlarms.get(act.well) ?? []).some(
    (row) => row.site !== undefined && row.alarm === act.alarm,
  );
}

function whyNot(fleet: Fleet, act: Act): FleetReason | undefined {
  if ('well' in act && !fleet.pipelines.has(act.well))
    return { reason: 'unknown-well', figures: { act: act.kind, well: act.well } };
  if (act.kind !== 'card-changed' || fleet.pipelines.has(act.card.well)) return undefined;
  const ceiling = wellCeiling(fleet);
  return ceiling && { reason: 'no-room-for-well', figures: { ceiling } };
}

/**
 * An act is kept with the time at which its wells meet it: never one that they have passed, or a
 * later run would miss it.
 */
function actTimeFor(pipelines: readonly WellPipeline[], nowMs: number): number {
  return pipelines.reduce((atMs, pipeline) => Math.max(atMs, pipeline.advancedToMs + 1), nowMs);
}

/** A new card is read from at once: what its channels come from may have changed. */
function applyCardChange(
  fleet: Fleet,
  { card }: ActOf<'card-changed'>,
  atMs: number,
  emit: EmitEffect,
): void {
  for (const node of applyNewCard(fleet, card, atMs)) {
    const entry = fleet.nodes.get(node);
    if (!entry) continue;
    if (entry.approved) ensureWellForNode(fleet, node, emit);
    if (entry.state.fullScale) emit({ is: 'node-changed', node });
  }
}
