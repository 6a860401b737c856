/**
 * The alarms of one well: each look runs the watches that its occasion names and settles what they
 * say. While somebody is at work on the well, or it is laid up, nothing is watched; when that ends
 * the watches begin afresh, since what they remember is of another well.
 */
import { appliesTo, appliesToWell } from '../applies.ts';
import { CLEAR, cannotTell, type Active, type Evaluation } from '../evaluation.ts';
import { WATCHES } from '../watches.ts';
import type { Scene, Watch } from '../scene.ts';
import { endExpiredSuspensions } from './acts.ts';
import { entryKey, type AlarmsState } from './alarm-entry.ts';
import { alarmEvent, type EmitAlarm } from './alarm-event.ts';
import { resume, applyEvaluation } from './apply-evaluation.ts';

export { applyAlarmAct as alarmAct } from './acts.ts';
export {
  newAlarmsState as newAlarms,
  activeAlarms as standing,
  activeKinds as standingKinds,
  type AlarmsState,
} from './alarm-entry.ts';

/** A watch with the keys of its memories, which are made once. */
interface TriggeredWatch {
  watch: Watch;
  keys: Map<string | undefined, string>;
}

const WATCHES_BY_TRIGGER: Record<Scene['trigger'], readonly TriggeredWatch[]> = {
  minute: watchesFor('minute'),
  cycle: watchesFor('cycle'),
  day: watchesFor('day'),
};

function watchesFor(trigger: Scene['trigger']): TriggeredWatch[] {
  return WATCHES.filter((watch) => watch.triggers.includes(trigger)).map((watch) => ({
    watch,
    keys: new Map(),
  }));
}

function keyOf({ watch, keys }: TriggeredWatch, pump: string | undefined): string {
  let key = keys.get(pump);
  // Pumps are `p1`, `p2` and so on: there are few names, however many wells.
  if (key === undefined) keys.set(pump, (key = entryKey(watch.alarm, pump)));
  return key;
}

/**
 * Runs the watches for the scene's pump, and with the first pump's those of the well and its nodes;
 * changes are emitted as the contract's alarm lines, in the table's order. Called once a pump at
 * each occasion.
 */
export function evaluateAll(state: AlarmsState, scene: Scene, emit: EmitAlarm): void {
  state.well = scene.well.card.well;
  endExpiredShelves(state, scene.atMs, emit);
  if (state.suspensions.length > 0) {
    endExpiredSuspensions(state, scene.atMs);
    if (state.suspensions.length > 0) return;
  }
  if (state.resetAtMs > 0) scene.resetAtMs = state.resetAtMs;
  const first = scene.pump.index === 0;
  const { card } = scene.pump;
  for (const triggered of WATCHES_BY_TRIGGER[scene.trigger]) {
    const { scope } = triggered.watch;
    if (scope === 'pump')
      evaluateWatch(state, triggered, scene, card.id, appliesTo(triggered.watch.alarm, card), emit);
    else if (!first) continue;
    else if (scope === 'well')
      evaluateWatch(
        state,
        triggered,
        scene,
        undefined,
        appliesToWell(triggered.watch.alarm, scene.pumps),
        emit,
      );
    else evaluateNodes(state, triggered.watch, scene, emit);
  }
}

function evaluateWatch(
  state: AlarmsState,
  triggered: TriggeredWatch,
  scene: Scene,
  pump: string | undefined,
  applies: boolean,
  emit: EmitAlarm,
): void {
  const { watch } = triggered;
  const key = keyOf(triggered, pump);
  const known = state.watchMemories[key];
  const memory = known ?? watch.initialMemory?.() ?? {};
  const entry = state.entries[key];
  scene.acknowledgedMs = entry?.state === 'acknowledged' ? entry.stateChangedMs : undefined;
  // Where it makes no sense it does not stand either: the card may have named another control
  // before.
  const evaluation = applies ? watch.evaluate(scene, memory) : CLEAR;
  if (known === undefined && hasAny(memory)) state.watchMemories[key] = memory;
  recordEvaluation(state, key, applies ? evaluation : cannotTell('not-this-control'));
  if (evaluation.is === 'cannot-tell' || (evaluation.is === 'clear' && state.entries[key] === undefined))
    return;
  applyEvaluation(
    state,
    { alarm: watch.alarm, atMs: scene.atMs, ...(pump !== undefined && { pump }), evaluation },
    emit,
  );
}

function recordEvaluation(state: AlarmsState, key: string, evaluation: Evaluation): void {
  const last = evaluation.is === 'cannot-tell' ? evaluation.because : evaluation.is;
  if (last === 'not-this-trigger') return;
  // A pump is off most of the day: what was said while it ran is still the answer.
  if (last === 'pump-off' && state.evaluations[key] !== undefined) return;
  state.evaluations[key] = last;
}

function hasAny(record: object): boolean {
  for (const _ in record) return true;
  return false;
}

/**
 * Once for each node that there is news of, and for each whose alarm stands without news any more.
 */
function evaluateNodes(state: AlarmsState, watch: Watch, scene: Scene, emit: EmitAlarm): void {
  if (scene.well.nodes.length === 0 && !hasAny(state.entries)) return;
  const found = new Map<string, Active>();
  for (const node of scene.well.nodes) {
    scene.node = node;
    const evaluation = watch.evaluate(scene, {});
    if (evaluation.is === 'active') found.set(node.node, evaluation);
  }
  scene.node = undefined;
  for (const entry of Object.values(state.entries)) {
    if (entry.alarm !== watch.alarm || entry.node === undefined || found.has(entry.node)) continue;
    applyEvaluation(
      state,
      { alarm: watch.alarm, atMs: scene.atMs, node: entry.node, evaluation: CLEAR },
      emit,
    );
  }
  for (const [node, evaluation] of found)
    applyEvaluation(state, { alarm: watch.alarm, atMs: scene.atMs, node, evaluation }, emit);
}

function endExpiredShelves(state: AlarmsState, atMs: number, emit: EmitAlarm): void {
  for (const key in state.entries) {
    const entry = state.entries[key]!;
    if (entry.state !== 'shelved' || entry.shelvedUntilMs === undefined || atMs < entry.shelvedUntilMs)
      continue;
    resume(state, entry, atMs, emit);
    if (!entry.active) delete state.entries[key];
  }
}

/**
 * Tells an alarm that no watch of this well can tell: `not-watched`, when the watching itself
 * broke.
 */
export function raiseExternally(
  state: AlarmsState,
  alarm: 'not-watched',
  found: Active,
  atMs: number,
  emit: EmitAlarm,
): void {
  const key = entryKey(alarm);
  if (state.entries[key]?.active) return;
  const entry = {
    alarm,
    state: 'unacknowledged' as const,
    active: true,
    notified: true,
    sinceMs: found.sinceMs,
    raisedMs: atMs,
    stateChangedMs: atMs,
    priority: found.priority ?? ('now' as const),
    reason: found.reason,
    figures: found.figures,
    evidence: found.evidence,
    causes: found.causes,
  };
  state.entries[key] = entry;
  emit(alarmEvent(state.well, entry, 'raised', atMs));
}
