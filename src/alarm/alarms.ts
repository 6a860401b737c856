/**
 * The alarms of one well: each look runs the watches that its occasion names and settles what they say. While somebody is at work
 * on the well, or it is laid up, nothing is watched; when that ends the watches begin afresh, since what they remember is of
 * another well.
 */
import type { Control } from '../card/card.ts';
import { APPLIES, appliesToWell, type Form } from '../watch/applies.ts';
import { WATCHES } from '../watch/table.ts';
import type { Finding, Memo, Scene, Watch } from '../watch/scene.ts';
import { endAway } from './acts.ts';
import { entryKey, type AlarmsState } from './entry.ts';
import { alarmLine, type EmitAlarm } from './line.ts';
import { resume, settle } from './settle.ts';

export { alarmAct } from './acts.ts';
export { newAlarms, standing, standingKinds, type AlarmsState } from './entry.ts';

/** A watch with what is asked of it at each look, looked up once: which controls it makes sense of, and the keys of its memos. */
interface Asked {
  watch: Watch;
  of: Record<Control, Form>;
  keys: Map<string | undefined, string>;
}

const BY_OCCASION: Record<Scene['why'], readonly Asked[]> = {
  minute: askedOn('minute'),
  cycle: askedOn('cycle'),
  day: askedOn('day'),
};

function askedOn(why: Scene['why']): Asked[] {
  return WATCHES.filter((watch) => watch.on.includes(why)).map((watch) => ({
    watch,
    of: APPLIES[watch.alarm],
    keys: new Map(),
  }));
}

function keyOf({ watch, keys }: Asked, pump: string | undefined): string {
  let key = keys.get(pump);
  // Pumps are `p1`, `p2` and so on: there are few names, however many wells.
  if (key === undefined) keys.set(pump, (key = entryKey(watch.alarm, pump)));
  return key;
}

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
  const { id, control } = scene.pump.card;
  for (const asked of BY_OCCASION[scene.why]) {
    const { each } = asked.watch;
    if (each === 'pump') lookOnce(state, asked, scene, id, asked.of[control] !== 'none', emit);
    else if (!first) continue;
    else if (each === 'well')
      lookOnce(state, asked, scene, undefined, appliesToWell(asked.watch.alarm, scene.pumps), emit);
    else lookAtNodes(state, asked.watch, scene, emit);
  }
}

function lookOnce(
  state: AlarmsState,
  asked: Asked,
  scene: Scene,
  pump: string | undefined,
  makesSense: boolean,
  emit: EmitAlarm,
): void {
  const { watch } = asked;
  const key = keyOf(asked, pump);
  const known = state.memos[key];
  const memo: Memo = known ?? {};
  // Where it makes no sense it does not stand either: the card may have named another control before.
  const finding = makesSense ? watch.look(scene, memo) : null;
  if (known === undefined && hasAny(memo)) state.memos[key] = memo;
  if (finding === undefined || (finding === null && state.entries[key] === undefined)) return;
  settle(state, { watch, atMs: scene.atMs, ...(pump !== undefined && { pump }), finding }, emit);
}

function hasAny(record: object): boolean {
  for (const _ in record) return true;
  return false;
}

/** Once for each node that there is news of, and for each whose alarm stands without news any more. */
function lookAtNodes(state: AlarmsState, watch: Watch, scene: Scene, emit: EmitAlarm): void {
  if (scene.well.nodes.length === 0 && !hasAny(state.entries)) return;
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
