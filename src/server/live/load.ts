/**
 * Makes the live state again from the store, as it is at any start: after a clean stop there is
 * nothing to run again, after a crash the readings since the last saves are. The same ids come out,
 * so nothing is told twice.
 */
import { readAct } from '../../core/domain/read-act.ts';
import { excuseOutage } from '../../core/fleet/node-news.ts';
import { ensureWellForNode, newFleetNode } from '../../core/fleet/nodes.ts';
import { applyCard } from '../../core/fleet/routing.ts';
import { KNOWN_ALARM_WINDOW_MS } from '../../core/fleet/settling.ts';
import { applyStoredPack, newNode, type NodeState } from '../../core/readings/node.ts';
import { applyEffect } from './apply-effect.ts';
import { loadedIgnored } from './ignored-names.ts';
import { loadSites } from './sites.ts';
import { renameSavedNode, renameSavedRow } from './old-names.ts';
import { ensureImportedWell, restoreDefaultWell } from './default-wells.ts';
import { rerun } from './rerun.ts';
import { newLiveState, type LiveOptions, type LiveState } from './state.ts';
import { ALIVE_KEY } from './turn.ts';
import { texts } from '../texts.ts';

/** A restart this quick is no absence. */
const MIN_ABSENCE_MS = 90_000;

export async function loadLiveState(options: LiveOptions, nowMs: number): Promise<LiveState> {
  const live = newLiveState(options);
  await loadNodes(live);
  for (const [node, entry] of live.nodes) if (entry.approved) await restoreDefaultWell(live, node);
  for (const well of await options.store.importedWells()) ensureImportedWell(live, well);
  await loadCards(live);
  for (const [node, entry] of live.nodes)
    if (entry.approved) ensureWellForNode(live, node, (effect) => applyEffect(live, effect, { nowMs }));
  await loadSites(live);
  for (const row of await options.store.alarms({ fromMs: nowMs - KNOWN_ALARM_WINDOW_MS })) {
    live.knownAlarms.set(row.well, [...(live.knownAlarms.get(row.well) ?? []), row]);
  }
  for (const row of await options.store.alarms({ active: true })) {
    const known = live.knownAlarms.get(row.well) ?? [];
    if (!known.some((other) => other.id === row.id)) live.knownAlarms.set(row.well, [...known, row]);
  }
  await recordAbsence(live, nowMs);
  const marks = new Map((await options.store.rerunMarks()).map((mark) => [mark.well, mark.fromMs]));
  for (const well of live.pipelines.keys())
    await rerun(live, well, marks.get(well) ?? Number.MAX_SAFE_INTEGER, nowMs);
  const { changes } = live;
  live.changes = [];
  await options.store.commit(changes);
  return live;
}

/**
 * Every card counts from its time on for where readings come from; the engine meets it as an act in
 * that time.
 */
async function loadCards(live: LiveState): Promise<void> {
  for (const row of await live.options.store.acts({ fromMs: 0 })) {
    if (row.kind !== 'card-changed') continue;
    const read = readAct(row.body);
    if ('problem' in read) {
      live.options.log(
        'warn',
        texts().cannotUseTheCard({ atMs: new Date(row.atMs).toISOString(), problem: read.problem }),
      );
      continue;
    }
    if (read.act.kind !== 'card-changed') continue;
    applyCard(live, read.act.card, row.atMs);
  }
}

async function loadNodes(live: LiveState): Promise<void> {
  const states = new Map<string, NodeState>();
  for (const row of await live.options.store.nodes()) {
    // Saved again under today's names in the first turn.
    if (renameSavedRow(row)) live.dirtyNodes.add(row.node);
    renameSavedNode(row.state);
    const state = (row.state as NodeState | undefined) ?? newNode(row.node);
    states.set(row.node, state);
    live.nodes.set(row.node, {
      ...newFleetNode(state, row.approved),
      ...(row.hello && { hello: row.hello }),
      ...(row.ignored && { ignored: loadedIgnored(row.ignored) }),
      savedAtMs: row.savedMs ?? 0,
      unsaved: false,
    });
  }
  for await (const placed of live.options.store.packsSinceSave()) {
    let entry = live.nodes.get(placed.node);
    if (!entry) {
      // A node whose first packs were kept before its state was: it had been approved.
      entry = newFleetNode(newNode(placed.node), true);
      live.nodes.set(placed.node, entry);
    }
    applyStoredPack(entry.state, placed);
    entry.unsaved = true;
  }
}

/** Our own absence is an act of its own: that silence is nobody's fault. */
async function recordAbsence(live: LiveState, nowMs: number): Promise<void> {
  const aliveMs = Number((await live.options.store.getValue(ALIVE_KEY)) ?? Number.NaN);
  if (!Number.isFinite(aliveMs)) return;
  excuseOutage(live, aliveMs, nowMs);
  for (const entry of live.nodes.values()) entry.unsaved = true;
  if (nowMs - aliveMs < MIN_ABSENCE_MS) return;
  const from = new Date(aliveMs).toISOString();
  live.changes.push({
    change: 'act',
    row: {
      id: `server-away-${aliveMs}`,
      atMs: nowMs,
      kind: 'server-away',
      body: { kind: 'server-away', from },
    },
  });
  const { changes } = live;
  live.changes = [];
  await live.options.store.commit(changes);
}
