/**
 * Acts that wait for their turn. Those that came while a commit was under way are done in one turn
 * and one commit, at most one of each well or node among them, so that what each is checked against
 * is what is kept.
 */
import { applyAct, type ActResult } from './acts.ts';
import type { Loop } from './loop.ts';
import { runTurnOf } from './requests.ts';

/** Of one turn; so many cards are read in some 20 ms. Common practice, no source. */
const MOST_AT_ONCE = 64;

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
  if (accepted.length === 0) return;
  const end = await runTurnOf(loop, (nowMs) =>
    accepted.map(({ json, by, settle }) => {
      const result = applyAct(loop.live, json, nowMs, by);
      return () => settle(result);
    }),
  );
  if ('problem' in end) for (const { settle } of accepted) settle(end);
  else for (const settleOne of end.done) settleOne();
}

/** Those that can be done together. The others keep their order. */
function takeWaiting(loop: Loop): WaitingAct[] {
  const taken: WaitingAct[] = [];
  const subjects = new Set<string>();
  loop.acts = loop.acts.filter((act) => {
    const subject = subjectOf(act.json);
    const waits = taken.length === MOST_AT_ONCE || subjects.has(subject);
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
  return JSON.stringify(
    [named['well'], named['node'], named['site']].filter((name) => name !== undefined)[0] ?? '',
  );
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
