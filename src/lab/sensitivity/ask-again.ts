/**
 * Asks the watches again over what they saw (./observed.ts). Watches that a threshold does not
 * reach answer what they answered before, so that they are not asked a thousand times; what they
 * said still explains, groups and delays the others' alarms. A moment in which nothing is active
 * and nobody else had anything to say costs no more than the question itself.
 */
import type { AlarmEvent } from '../../../shared/api/events.ts';
import type { WatchedKind } from '../../../shared/alarms/catalogue.ts';
import type { Evaluation } from '../../core/alarms/evaluation.ts';
import type { Scene, Watch } from '../../core/alarms/scene.ts';
import type { Observed } from './observed.ts';
import type { Watches } from './scaled-engine.ts';

/** What each watch said at each observation, and the alarms that came of it. */
export interface Answers {
  alarms: AlarmEvent[];
  said: Map<WatchedKind, (Evaluation | undefined)[]>;
  /** Whether nobody said at it that something is active. */
  quiet: boolean[];
}

interface Asking {
  watches: Watches;
  state: ReturnType<Watches['newAlarms']>;
  emit: (event: AlarmEvent) => void;
  /** The observation that is in hand. */
  at: number;
}

/** A watch as it answers truly, under the replacement that the lifecycle asks. */
type Evaluate = Watch['evaluate'];

/** Asks all of them, as the engine did. */
export function askAll(watches: Watches, observed: readonly Observed[]): Answers {
  const answers: Answers = { alarms: [], said: new Map(), quiet: observed.map(() => true) };
  const asking = newAsking(watches, answers.alarms);
  const undo = watches.WATCHES.map((watch) => {
    const said: (Evaluation | undefined)[] = [];
    if (watch.scope !== 'node') answers.said.set(watch.alarm, said);
    return replaceEvaluate(watch, (evaluate) => (scene, memory) => {
      const evaluation = evaluate(scene, memory);
      said[asking.at] = evaluation;
      if (evaluation.is === 'active') answers.quiet[asking.at] = false;
      return evaluation;
    });
  });
  for (const one of observed) {
    step(asking, one);
    asking.at++;
  }
  for (const restore of undo) restore();
  return answers;
}

/**
 * Asks those of the kinds that `reached` names; the others say what is in `before`. Goes no further
 * than an alarm that is `enough`.
 */
export function askReached(
  watches: Watches,
  observed: readonly Observed[],
  before: Answers,
  reached: readonly WatchedKind[],
  enough: (event: AlarmEvent) => boolean = () => false,
): AlarmEvent[] {
  const alarms: AlarmEvent[] = [];
  const asking = newAsking(watches, alarms);
  const asked: Asked[] = [];
  const undo = watches.WATCHES.map((watch) => {
    const said = before.said.get(watch.alarm);
    return replaceEvaluate(watch, (evaluate) => {
      if (!reached.includes(watch.alarm) || watch.scope === 'node')
        return (scene, memory) => said?.[asking.at] ?? evaluate(scene, memory);
      const one: Asked = { watch, evaluate, answer: undefined };
      asked.push(one);
      return (scene, memory) => one.answer ?? evaluate(scene, memory);
    });
  });
  let heard = 0;
  for (const observation of observed) {
    const calm = before.quiet[asking.at] === true && isCalm(asking.state);
    if (observation.is === 'act' || !calm || askDirectly(asking, observation.scene, asked))
      step(asking, observation);
    for (const one of asked) one.answer = undefined;
    asking.at++;
    if (alarms.length > heard && alarms.slice(heard).some(enough)) break;
    heard = alarms.length;
  }
  for (const restore of undo) restore();
  return alarms;
}

/** No alarm of any state, and nothing that an act has left behind. */
function isCalm({ entries, suspensions, resetAtMs }: Asking['state']): boolean {
  for (const _ in entries) return false;
  return suspensions.length === 0 && resetAtMs === 0;
}

interface Asked {
  watch: Watch;
  evaluate: Evaluate;
  answer: Evaluation | undefined;
}

/** Asks what the scene triggers; true where the lifecycle has to hear of an answer. */
function askDirectly({ watches, state }: Asking, scene: Scene, asked: readonly Asked[]): boolean {
  let active = false;
  for (const one of asked) {
    const { watch, evaluate } = one;
    if (!watch.triggers.includes(scene.trigger)) continue;
    const ofPump = watch.scope === 'pump';
    if (ofPump && watches.CATALOGUE[watch.alarm].controls[scene.pump.card.control] === 'none') continue;
    if (!ofPump && scene.pump.index !== 0) continue;
    const key = watches.entryKey(watch.alarm, ofPump ? scene.pump.card.id : undefined);
    const memory = (state.watchMemories[key] ??= watch.initialMemory?.() ?? {});
    one.answer = evaluate(scene, memory);
    if (one.answer.is === 'active') active = true;
  }
  return active;
}

function newAsking(watches: Watches, alarms: AlarmEvent[]): Asking {
  return { watches, state: watches.newAlarms(), emit: (event) => alarms.push(event), at: 0 };
}

function step({ watches, state, emit }: Asking, observed: Observed): void {
  if (observed.is === 'act') watches.alarmAct(state, observed.act, observed.atMs, emit);
  else watches.evaluateAll(state, observed.scene, emit);
}

/** Returns what puts the true one back. */
function replaceEvaluate(watch: Watch, replace: (evaluate: Evaluate) => Evaluate): () => void {
  const evaluate = watch.evaluate.bind(watch);
  watch.evaluate = replace(evaluate);
  return () => {
    watch.evaluate = evaluate;
  };
}
