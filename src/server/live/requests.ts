/** What people and commands ask of the running server. */
import { wellCeiling } from '../../core/fleet/ceiling.ts';
import { handle } from '../../core/fleet/handle.ts';
import { fleetReasonText } from '../../core/fleet/reason-text.ts';
import type { Change } from '../../store/store.ts';
import { applyEffects } from './apply-effect.ts';
import { dropNode, planForget } from './forget.ts';
import { loadLiveState } from './load.ts';
import { healthProblemOf, withRecovery, type Loop } from './loop.ts';
import { processTurn, saveAll } from './turn.ts';
import { notifyViewers } from './viewers.ts';
import { texts } from '../texts.ts';

/** What people do, in a turn of its own. Returns what `work` made, once it is committed. */
export async function runTurnOf<T>(
  loop: Loop,
  work: (nowMs: number) => T,
): Promise<{ done: T } | { problem: string; failure?: unknown }> {
  const before = healthProblemOf(loop);
  if (before !== undefined) return { problem: texts().cannotKeepAnythingNow(before) };
  const nowMs = loop.options.now();
  let result: { done: T } | { problem: string } = { problem: texts().tryAgain };
  const failure = await withRecovery(loop, async () => {
    const end = await processTurn(loop.live, [], nowMs, () => {
      result = { done: work(nowMs) };
    });
    notifyViewers(loop.live, loop.viewers, end, false);
    if (end.committed) loop.options.onCommit?.();
  });
  const after = healthProblemOf(loop);
  return after === undefined ? result : { problem: texts().cannotKeepThis(after), failure };
}

export async function approveNode(loop: Loop, node: string): Promise<string | undefined> {
  const result = await runTurnOf(loop, (nowMs) => {
    const effects = handle(loop.live, { is: 'approval', node }, nowMs);
    applyEffects(loop.live, effects, { nowMs });
    const rejected = effects.find((effect) => effect.is === 'rejected');
    return rejected && fleetReasonText(rejected.why);
  });
  return 'problem' in result ? result.problem : result.done;
}

export async function forget(loop: Loop, node: string): Promise<string | undefined> {
  const before = healthProblemOf(loop);
  if (before !== undefined) return texts().cannotKeepAnythingNow(before);
  const { options } = loop;
  const plan = await planForget(options.store, node, options.now());
  if ('problem' in plan) return plan.problem;
  await withRecovery(loop, async () => {
    await options.store.commit(plan.changes);
    dropNode(loop.live, node);
  });
  const after = healthProblemOf(loop);
  return after === undefined ? undefined : texts().cannotKeepThis(after);
}

/**
 * Everything derived is saved first, so that making it again costs no well more than a look at its
 * last save.
 */
export async function importChanges(
  loop: Loop,
  plan: () => Promise<readonly Change[]>,
): Promise<string | undefined> {
  const before = healthProblemOf(loop);
  if (before !== undefined) return texts().cannotKeepAnythingNow(before);
  const changes = await plan();
  // Where nothing is new nothing is made again.
  if (changes.length === 0) return undefined;
  const addsWell = changes.some(
    (one) => one.change === 'imported' && one.row.kind === 'well' && !loop.live.pipelines.has(one.row.well),
  );
  const ceiling = addsWell ? wellCeiling(loop.live) : undefined;
  if (ceiling) return fleetReasonText({ reason: 'no-room-for-well', figures: { ceiling } });
  const { options, live } = loop;
  await withRecovery(loop, async () => {
    await saveAll(live, options.now());
    await options.store.commit(changes);
    loop.live = await loadLiveState(options, options.now());
    loop.live.hasViewers = loop.viewers.size > 0;
    loop.live.counts = live.counts;
  });
  const after = healthProblemOf(loop);
  return after === undefined ? undefined : texts().cannotKeepThis(after);
}
