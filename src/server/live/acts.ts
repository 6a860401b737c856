/**
 * What people do: checked, kept with its time, and put among the inputs of the wells it is for, in
 * one commit.
 */
import { randomUUID } from 'node:crypto';
import type { Act } from '../../core/domain/act.ts';
import { isSourceNode } from '../../core/domain/sources.ts';
import { readAct } from '../../core/domain/read-act.ts';
import { applyNewCard, pipelinesOfAct } from '../../core/fleet/routing.ts';
import { recordAcknowledgment } from '../../core/fleet/alarm-rows.ts';
import { applyEffects } from './apply-effect.ts';
import { wellCeiling } from './ceiling.ts';
import { addInput, type WellPipeline } from '../../core/fleet/well-pipeline.ts';
import { ensureWellForNode } from './nodes.ts';
import type { LiveState } from './state.ts';

export type ActResult = { done: true; atMs: number } | { problem: string };

/** Does what a person wrote (contract, section 6). The change is pushed; the caller commits. */
export function applyAct(live: LiveState, json: unknown, nowMs: number, by?: string): ActResult {
  const read = readAct(json, { strict: true });
  if ('problem' in read) return { problem: read.problem };
  const { act } = read;
  if (act.kind === 'acknowledged' && isSiteAlarm(live, act))
    return acknowledgeSiteAlarm(live, act, json, nowMs, by);
  const unknown = findUnknownWell(live, act);
  if (unknown !== undefined) return { problem: `Cannot do ${act.kind}: there is no well ${unknown}` };
  const full =
    act.kind === 'card-changed' && !live.pipelines.has(act.card.well) ? wellCeiling(live) : undefined;
  if (full !== undefined) return { problem: `Cannot add a well: ${full}` };
  const pipelines = pipelinesOfAct(live, act);
  const atMs = actTimeFor(pipelines, nowMs);
  if (act.kind === 'card-changed') applyCardChange(live, act, atMs);
  storeAct(live, act, json, atMs, by);
  // A card may have made its well.
  for (const pipeline of act.kind === 'card-changed' ? pipelinesOfAct(live, act) : pipelines) {
    addInput(pipeline, { atMs, act, ...(by !== undefined && { by }) });
    live.dirtyWells.add(pipeline);
  }
  if (act.kind === 'acknowledged')
    recordAcknowledgment(live, act, { atMs, ...(by !== undefined && { by }) }, applyEffects(live, nowMs));
  return { done: true, atMs };
}

type Acknowledged = Extract<Act, { kind: 'acknowledged' }>;

/** An alarm of a whole site is told under the site's name, which is no well's. */
function isSiteAlarm(live: LiveState, act: Acknowledged): boolean {
  return (live.knownAlarms.get(act.well) ?? []).some(
    (row) => row.site !== undefined && row.alarm === act.alarm,
  );
}

/** No well's engine knows of it: its row alone remembers that it was seen. */
function acknowledgeSiteAlarm(
  live: LiveState,
  act: Acknowledged,
  json: unknown,
  atMs: number,
  by: string | undefined,
): ActResult {
  storeAct(live, act, json, atMs, by);
  recordAcknowledgment(live, act, { atMs, ...(by !== undefined && { by }) }, applyEffects(live, atMs));
  return { done: true, atMs };
}

function storeAct(live: LiveState, act: Act, json: unknown, atMs: number, by: string | undefined): void {
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

function findUnknownWell(live: LiveState, act: Act): string | undefined {
  return 'well' in act && !live.pipelines.has(act.well) ? act.well : undefined;
}

/**
 * An act is kept with the time at which its wells meet it: never one that they have passed, or a
 * later run would miss it.
 */
function actTimeFor(pipelines: readonly WellPipeline[], nowMs: number): number {
  return pipelines.reduce((atMs, pipeline) => Math.max(atMs, pipeline.advancedToMs + 1), nowMs);
}

/** A new card is read from at once: what its channels come from may have changed. */
function applyCardChange(live: LiveState, act: Extract<Act, { kind: 'card-changed' }>, atMs: number): void {
  applyNewCard(live, act.card, atMs);
  for (const [node, entry] of live.nodes) {
    if (entry.approved && !isSourceNode(live.readTable, node)) ensureWellForNode(live, node);
    if (entry.state.fullScale) live.dirtyNodes.add(node);
  }
}
