/**
 * The alarms of one well: each look runs the watches that its occasion names and settles what they say. While somebody is at work
 * on the well, or it is laid up, nothing is watched; when that ends the watches begin afresh, since what they remember is of
 * another well.
 */
import { appliesTo, appliesToWell } from '../watch/applies.ts';
import { WATCHES } from '../watch/table.ts';
import type { Finding, Memo, Scene, Watch } from '../watch/scene.ts';
import { endAway } from './acts.ts';
import { entryKey, type AlarmsState } from './entry.ts';
import { alarmLine, type EmitAlarm } from './line.ts';
import { resume, settle } from './settle.ts';

export { alarmAct } from './acts.ts';
export { newAlarms, standing, standingKinds, type AlarmsState } from './entry.ts';

const BY_OCCASION: Record<Scene['why'], readonly Watch[]> = {
  minute: WATCHES.filter((watch) => watch.on.includes('minute')),
  cycle: WATCHES.filter((watch) => watch.on.includes('cycle')),
  day: WATCHES.filter((watch) => watch.on.includes('day')),
};

/**
 * Runs the watches for the scene's pump, and with the first pump's those of the well and its nodes; changes are emitted as the
 * contract's alarm lines, in the table's order. Called once a pump at each occasion.
 */
export function lookAll(state: AlarmsState, scene: Scene, emit: EmitAlarm): void {
  state.well = scene.well.card.well;
  endShelves(state, scene.atMs, emit);
  if (state.away.length > 0) {
    endAway(state, scene.atMs);
    if (state.away.length > 0) return;
  }
  if (state.freshFromMs > 0) scene.freshFromMs = state.freshFromMs;
  const first = scene.pump.index === 0;
  for (const watch of BY_OCCASION[scene.why]) {
    if (watch.each === 'pump') {
      const asked = appliesTo(watch.alarm, scene.pump.card.control);
      lookOnce(state, watch, scene, { pump: scene.pump.card.id, asked }, emit);
    } else if (watch.each === 'well') {
      const asked = appliesToWell(watch.alarm, scene.pumps);
      if (first) lookOnce(state, watch, scene, { asked }, emit);
    } else if (first) lookAtNodes(state, watch, scene, emit);
  }
}

function lookOnce(
  state: AlarmsState,
  watch: Watch,
  scene: Scene,
  { pump, asked }: { pump?: string; asked: boolean },
  emit: EmitAlarm,
): void {
  const key = entryKey(watch.alarm, pump);
  const known = state.memos[key];
  const memo: Memo = known ?? {};
  // Where it makes no sense it does not stand either: the card may have named another control before.
  const finding = asked ? watch.look(scene, memo) : null;
  if (known === undefined && hasAny(memo)) state.memos[key] = memo;
  if (finding === undefined || (finding === null && state.entries[key] === undefined)) return;
  settle(state, { watch, atMs: scene.atMs, ...(pump !== undefined && { pump }), finding }, emit);
}

function hasAny(memo: Memo): boolean {
  for (const _ in memo) return true;
  return false;
}

/** Once for each node that there is news of, and for each whose alarm stands without news any more. */
function lookAtNodes(state: AlarmsState, watch: Watch, scene: Scene, emit: EmitAlarm): void {
  const found = new Map<string, Finding>();
  for (const node of scene.well.nodes) {
    scene.node = node;
    const finding = watch.look(scene, {});
    if (finding) found.set(node.node, finding);
  }
  delete scene.node;
  for (const entry of Object.values(state.entries)) {
    if (entry.alarm !== watch.alarm || entry.node === undefined || found.has(entry.node)) continue;
    settle(state, { watch, atMs: scene.atMs, node: entry.node, finding: null }, emit);
  }
  for (const [node, finding] of found) settle(state, { watch, atMs: scene.atMs, node, finding }, emit);
}

function endShelves(state: AlarmsState, atMs: number, emit: EmitAlarm): void {
  for (const key in state.entries) {
    const entry = state.entries[key]!;
    if (entry.state !== 'shelved' || entry.shelvedUntilMs === undefined || atMs < entry.shelvedUntilMs)
      continue;
    resume(state, entry, atMs, emit);
    if (!entry.stands) delete state.entries[key];
  }
}

/** Tells an alarm that no watch of this well can tell: `not-watched`, when the watching itself broke. */
export function tellOutside(
  state: AlarmsState,
  alarm: 'not-watched',
  finding: Finding,
  atMs: number,
  emit: EmitAlarm,
): void {
  const key = entryKey(alarm);
  if (state.entries[key]?.stands) return;
  const entry = {
    alarm,
    state: 'unacknowledged' as const,
    stands: true,
    told: true,
    sinceMs: finding.sinceMs,
    raisedMs: atMs,
    stateMs: atMs,
    priority: finding.priority ?? ('now' as const),
    why: finding.why,
    evidence: finding.evidence,
    causes: finding.causes,
  };
  state.entries[key] = entry;
  emit(alarmLine(state.well, entry, 'raised', atMs));
}
