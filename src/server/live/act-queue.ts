/**
 * Acts that wait for their turn. Those that came while a commit was under way are done in one turn
 * and one commit, at most one of each well or node among them, so that what each is checked against
 * is what is kept.
 */
import { StoreError } from '../../store/store-error.ts';
import { applyAct, type ActResult } from './acts.ts';
import { healthProblemOf, reload, type Loop } from './loop.ts';
import { runTurnOf } from './requests.ts';

/** Of one turn; so many cards are read in some 20 ms. Common practice, no source. */
const MAX_AT_ONCE = 64;

/** Says why the act is not to be done. Asked between turns, right before. */
export type Refuse = () => Promise<string | undefined>;

export interface WaitingAct {
  json: unknown;
  by: string | undefined;
  refuse: Refuse | undefined;
  settle: (result: ActResult | Promise<never>) => void;
}

/** Resolves when the act is committed, or with why it was not done. */
export function queueAct(loop: Loop, act: Omit<WaitingAct, 'settle'>): Promise<ActResult> {
  return new Promise((settle) => {
    loop.acts.push({ ...act, settle });
    // Each comes with a turn of its own at the mutex; who finds nothing left has nothing to do.
    void loop.mutex.run(() => doWaitingActs(loop));
  });
}

async function doWaitingActs(loop: Loop): Promise<void> {
  const accepted: WaitingAct[] = [];
  for (const act of takeWaiting(loop)) if (await isAccepted(act)) accepted.push(act);
  if (accepted.length > 0) await doTogether(loop, accepted);
}

/**
 * One turn for all of them. Where a fault of our own broke it, each has a turn to itself: the one
 * that breaks its own is told so, the others are done.
 */
async function doTogether(loop: Loop, acts: readonly WaitingAct[]): Promise<void> {
  const end = await runTurnOf(loop, (nowMs) =>
    acts.map(({ json, by, settle }) => {
      const result = applyAct(loop.live, json, nowMs, by);
      return () => settle(result);
    }),
  );
  if ('done' in end) {
    for (const settleOne of end.done) settleOne();
    return;
  }
  if (acts.length === 1 || end.failure === undefined || end.failure instanceof StoreError) {
    for (const { settle } of acts) settle({ problem: end.problem });
    return;
  }
  for (const act of acts) {
    // What broke the turn before must not be held against this one.
    if (healthProblemOf(loop) !== undefined) await reload(loop);
    await doTogether(loop, [act]);
  }
}

/** Those that can be done together. The others keep their order. */
function takeWaiting(loop: Loop): WaitingAct[] {
  const taken: WaitingAct[] = [];
  const subjects = new Set<string>();
  loop.acts = loop.acts.filter((act) => {
    const subject = subjectOf(act.json);
    const waits = taken.length === MAX_AT_ONCE || subjects.has(subject);
    // What comes later for the same well must not pass by.
    subjects.add(subject);
    if (!waits) taken.push(act);
    return waits;
  });
  return taken;
}

/** Which well, node or site an act is about; of those that name none, one is done at a time. */
function subjectOf(json: unknown): string {
  if (!isObject(json)) return '';
  const named = isObject(json['card']) ? json['card'] : json;
  const name = named['well'] ?? named['node'] ?? named['site'];
  return typeof name === 'string' ? name : '';
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

async function isAccepted({ refuse, settle }: WaitingAct): Promise<boolean> {
  try {
    const problem = await refuse?.();
    if (problem === undefined) return true;
    settle({ problem });
  } catch (error) {
    settle(Promise.reject(error));
  }
  return false;
}
