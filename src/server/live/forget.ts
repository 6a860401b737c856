/**
 * A node is forgotten, with the well that was made for it: one of a wrong name, or one that is no
 * more. Nothing that was measured or written down is lost by it, so a node whose readings are kept,
 * or that a card reads from, stays. One that speaks again is known again.
 */
import { removeWell } from '../../core/fleet/routing.ts';
import { hasData } from '../export/gather.ts';
import { nodesOfOthers } from '../export/other-nodes.ts';
import type { Change, Store } from '../../store/store.ts';
import { defaultWellKey } from './default-wells.ts';
import type { LiveState } from './state.ts';
import { texts } from '../texts.ts';

/**
 * What to commit, or why the node stays. By what is kept alone, so that it can be done where no
 * server runs.
 */
export async function planForget(
  store: Store,
  node: string,
  nowMs: number,
): Promise<{ changes: Change[] } | { problem: string }> {
  const why = await whyKept(store, node);
  if (why !== undefined) return { problem: texts().cannotForget({ node, why }) };
  const active = await store.alarms({ well: node, active: true });
  return {
    changes: [
      { change: 'node-forgotten', node },
      { change: 'setting', key: defaultWellKey(node), value: null },
      { change: 'delete-derived', well: node, fromMs: 0 },
      { change: 'rerun-mark', well: node, fromMs: null },
      // Nobody would ever be heard who could end it.
      ...active.map((row): Change => ({
        change: 'alarm',
        row: { ...row, state: 'normal', clearedMs: nowMs },
      })),
    ],
  };
}

async function whyKept(store: Store, node: string): Promise<string | undefined> {
  if (!(await store.nodes()).some((row) => row.node === node)) return texts().noNodeOfThisName;
  const reader = (await nodesOfOthers(store, '')).get(node);
  if (reader !== undefined) return texts().cardOfReads(reader);
  if ((await store.channels(node)).length > 0) return texts().itHasSentReadings;
  return (await hasPast(store, node)) ? texts().somethingWasWrittenDown(node) : undefined;
}

/** Whether the well of this name is more than a name. */
async function hasPast(store: Store, well: string): Promise<boolean> {
  const { cycles, days, baselines, entries, acts, imported } = await store.past(well);
  return (
    cycles.length > 0 ||
    baselines.length > 0 ||
    days.some(({ event }) => hasData(event)) ||
    entries.length > 0 ||
    imported.length > 0 ||
    acts.some((row) => row.well === well || row.node === well)
  );
}

/**
 * The same in memory, once it is committed. What brokers retain of it goes too: the copy of its
 * hello would make it known again at the next start. At an outside broker only `kept` is ours to
 * end (contract, section 1).
 */
export function dropNode(live: LiveState, node: string): void {
  const { approveAll, observe, publish, root } = live.options;
  const retained = approveAll ? ['kept', 'hello', 'presence'] : ['kept'];
  for (const topic of observe ? [] : retained)
    publish(`${root}/${node}/${topic}`, '', { qos: 1, retain: true });
  live.nodes.delete(node);
  live.dirtyNodes.delete(node);
  const line = live.pipelines.get(node);
  if (!line) return;
  live.dirtyWells.delete(line);
  live.knownAlarms.delete(node);
  removeWell(live, node);
}
