/**
 * One turn of the live server: what came since the last one, all wells it touched, one commit, and
 * only then `kept`. The clock is read once, by the caller, who lets nobody else at the state until
 * the turn has settled: it waits for the store.
 */
import { formatAck } from '../../core/decode/server-messages.ts';
import { takeDueAcks } from '../../core/fleet/acks.ts';
import { handle } from '../../core/fleet/handle.ts';
import { dueReruns } from '../../core/fleet/rerun.ts';
import { nextWakeMs } from '../../core/fleet/wake.ts';
import { applyEffects } from './apply-effect.ts';
import { handleReceived, type ReceivedMessage } from './intake.ts';
import { rerun } from './rerun.ts';
import { saveNodes, saveSnapshot } from './save.ts';
import type { LiveState } from './state.ts';

/** The last sign of life, so that a restart knows how long nobody watched. */
const ALIVE_INTERVAL_MS = 30_000;
export const ALIVE_KEY = 'alive-ms';

export interface TurnResult {
  /** Something was committed. */
  committed: boolean;
  /** Wells that were passed on. */
  advanced: readonly string[];
}

/**
 * Runs again first what is due, since that reads only what is committed, then takes the messages
 * and does `acts`. Rejects with a StoreError where the commit failed: nothing of the turn is kept
 * then.
 */
export async function processTurn(
  live: LiveState,
  received: readonly ReceivedMessage[],
  nowMs: number,
  acts?: () => void,
): Promise<TurnResult> {
  if (nowMs >= live.wakeAtMs) await runDueReruns(live, nowMs);
  for (const message of received) handleReceived(live, message);
  acts?.();
  const effects = handle(live, { is: 'time' }, nowMs);
  applyEffects(live, effects, { nowMs });
  saveNodes(live, nowMs);
  const committed = await commit(live);
  for (const message of received) message.acknowledge?.();
  sendAcks(live, nowMs);
  live.wakeAtMs = nextWakeMs(live);
  return { committed, advanced: effects.flatMap((effect) => (effect.is === 'advanced' ? effect.well : [])) };
}

async function commit(live: LiveState): Promise<boolean> {
  const { changes } = live;
  if (changes.length === 0) return false;
  live.changes = [];
  const began = process.hrtime.bigint();
  await live.options.store.commit(changes);
  live.counts.commits++;
  live.counts.commitMs += Number(process.hrtime.bigint() - began) / 1e6;
  return true;
}

async function runDueReruns(live: LiveState, nowMs: number): Promise<void> {
  for (const { well, fromMs } of dueReruns(live, nowMs)) await rerun(live, well, fromMs, nowMs);
}

/** Time goes on where nothing comes; before `wakeAtMs` no node or well is asked. */
export async function tick(
  live: LiveState,
  nowMs: number,
  alive: { lastAliveMs: number },
): Promise<TurnResult> {
  if (nowMs >= aliveDueMs(alive)) {
    alive.lastAliveMs = nowMs;
    live.changes.push({ change: 'setting', key: ALIVE_KEY, value: String(nowMs) });
  }
  if (nowMs < live.wakeAtMs) return { committed: await commit(live), advanced: [] };
  live.counts.wakes++;
  return processTurn(live, [], nowMs);
}

/** When the next sign of life is due. */
export function aliveDueMs({ lastAliveMs }: { lastAliveMs: number }): number {
  return lastAliveMs + ALIVE_INTERVAL_MS;
}

function sendAcks(live: LiveState, nowMs: number): void {
  const { publish, root } = live.options;
  for (const { node, ack } of takeDueAcks(live, nowMs))
    publish(`${root}/${node}/kept`, formatAck(ack), { qos: 1, retain: true });
}

/** A clean stop: everything derived is saved, so that the next start has nothing to make again. */
export async function saveAll(live: LiveState, nowMs: number): Promise<void> {
  for (const pipeline of live.pipelines.values()) saveSnapshot(live, pipeline, nowMs);
  for (const [node, { unsaved }] of live.nodes) if (unsaved) live.dirtyNodes.add(node);
  saveNodes(live, nowMs);
  live.changes.push({ change: 'setting', key: ALIVE_KEY, value: String(nowMs) });
  await commit(live);
}
