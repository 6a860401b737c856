/**
 * Makes the live state again from the store, as it is at any start: after a clean stop there is nothing to run again, after a crash
 * the readings since the last saves are. The same ids come out, so nothing is told twice.
 */
import { readAct } from '../../card/read-act.ts';
import { applyKept, newNode, type NodeState } from '../../readings/node.ts';
import { loadSites } from './news.ts';
import { handedWell, useCard, wellForKnownNode, wellForNode } from './nodes.ts';
import { rerun } from './rerun.ts';
import { newLiveState, type LiveOptions, type LiveState } from './state.ts';
import { ALIVE_KEY, excuse } from './turn.ts';

/** Alarms told this long ago are known again when late data brings them back. */
const REMEMBER_MS = 8 * 86_400_000;
/** A restart this quick is no absence. */
const AWAY_AFTER_MS = 90_000;

export function loadLive(options: LiveOptions, nowMs: number): LiveState {
  const live = newLiveState(options);
  loadNodes(live);
  for (const [node, entry] of live.nodes) if (entry.letIn) wellForKnownNode(live, node);
  for (const well of options.store.handedWells()) handedWell(live, well);
  loadCards(live);
  for (const [node, entry] of live.nodes) if (entry.letIn) wellForNode(live, node);
  loadSites(live);
  for (const row of options.store.alarms({ fromMs: nowMs - REMEMBER_MS })) {
    live.told.set(row.well, [...(live.told.get(row.well) ?? []), row]);
  }
  for (const row of options.store.alarms({ standing: true })) {
    const known = live.told.get(row.well) ?? [];
    if (!known.some((other) => other.id === row.id)) live.told.set(row.well, [...known, row]);
  }
  noteAbsence(live, nowMs);
  const marks = new Map(options.store.rerunMarks().map((mark) => [mark.well, mark.fromMs]));
  for (const line of live.lines.values())
    rerun(live, line, marks.get(line.well) ?? Number.MAX_SAFE_INTEGER, nowMs);
  const { changes } = live;
  live.changes = [];
  options.store.commit(changes);
  return live;
}

/** Every card counts from its time on for where readings come from; the engine meets it as an act in that time. */
function loadCards(live: LiveState): void {
  for (const row of live.options.store.acts({ fromMs: 0 })) {
    if (row.kind !== 'card-changed') continue;
    const read = readAct(row.body);
    if ('problem' in read) {
      live.options.log('warn', `Cannot use the card of ${new Date(row.atMs).toISOString()}: ${read.problem}`);
      continue;
    }
    if (read.act.kind !== 'card-changed') continue;
    useCard(live, read.act.card, row.atMs);
  }
}

function loadNodes(live: LiveState): void {
  const states = new Map<string, NodeState>();
  for (const row of live.options.store.nodes()) {
    const state = (row.state as NodeState | undefined) ?? newNode(row.node);
    states.set(row.node, state);
    live.nodes.set(row.node, {
      state,
      letIn: row.letIn,
      ...(row.hello && { hello: row.hello }),
      ...(row.ignored && { ignored: row.ignored }),
      keptDue: true,
      keptAtMs: 0,
      savedAtMs: row.savedMs ?? 0,
      unsaved: false,
    });
  }
  for (const placed of live.options.store.packsSinceSave()) {
    let entry = live.nodes.get(placed.node);
    if (!entry) {
      // A node whose first packs were kept before its book was: it had been let in.
      entry = {
        state: newNode(placed.node),
        letIn: true,
        keptDue: true,
        keptAtMs: 0,
        savedAtMs: 0,
        unsaved: true,
      };
      live.nodes.set(placed.node, entry);
    }
    applyKept(entry.state, placed);
    entry.unsaved = true;
  }
}

/** Our own absence is an act of its own: that silence is nobody's fault. */
function noteAbsence(live: LiveState, nowMs: number): void {
  const aliveMs = Number(live.options.store.value(ALIVE_KEY) ?? Number.NaN);
  if (!Number.isFinite(aliveMs)) return;
  excuse(live, aliveMs, nowMs);
  if (nowMs - aliveMs < AWAY_AFTER_MS) return;
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
  live.options.store.commit(changes);
}
