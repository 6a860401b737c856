/**
 * One turn of the live server: what came since the last one, all wells it touched, one commit, and
 * only then `kept`. The clock is read once, by the caller, who lets nobody else at the state until
 * the turn has settled: it waits for the store.
 */
import { MINUTE_MS } from '../../../shared/units/duration.ts';
import { excuseOutage } from '../../core/fleet/node-news.ts';
import { ackPayload } from '../../core/readings/ack.ts';
import { formatAck } from '../../core/decode/server-messages.ts';
import { handleMessage, type ReceivedMessage } from './intake.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';
import { handleNodeNews } from './node-news.ts';
import { advanceWell } from './advance.ts';
import { RERUN_EVERY_MS, rerun } from './rerun.ts';
import { SAVE_EVERY_MS, saveSnapshot, saveNodes } from './save.ts';
import type { LiveState } from './state.ts';

/** `kept` goes out once a second a node at most (contract, section 4). */
const ACK_INTERVAL_MS = 1000;
/** Wells to save in one turn: their state is packed on this thread, about 1 ms each. */
const MAX_SAVES_PER_TURN = 20;
/** The last sign of life, so that a restart knows how long nobody watched. */
const ALIVE_INTERVAL_MS = 30_000;

export interface TurnResult {
  /** Something was committed. */
  committed: boolean;
  dirtyWells: readonly WellPipeline[];
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
  await runDueReruns(live, nowMs);
  for (const message of received) handleMessage(live, message);
  acts?.();
  const dirtyWells = [...live.dirtyWells];
  live.dirtyWells.clear();
  for (const pipeline of dirtyWells) advanceWell(live, pipeline, nowMs);
  saveNodes(live, nowMs, false);
  const committed = await commit(live);
  for (const message of received) message.acknowledge?.();
  sendAcks(live, nowMs);
  return { committed, dirtyWells };
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
  for (const pipeline of live.pipelines.values()) {
    if (pipeline.rerunFromMs === undefined || nowMs - pipeline.reranAtMs < RERUN_EVERY_MS) continue;
    await rerun(live, pipeline, pipeline.rerunFromMs, nowMs);
  }
}

/**
 * Once a second: time goes on where nothing comes. News of silent nodes, wells whose nodes are
 * waited for no longer, saves that are due, and `kept` that was held back.
 */
export async function tick(
  live: LiveState,
  nowMs: number,
  alive: { lastAliveMs: number },
): Promise<TurnResult> {
  await runDueReruns(live, nowMs);
  handleNodeNews(live, nowMs);
  let saves = 0;
  const dirtyWells: WellPipeline[] = [];
  for (const pipeline of live.pipelines.values()) {
    if (pipeline.pendingInputs.length > 0 || isBehind(pipeline, nowMs)) {
      advanceWell(live, pipeline, nowMs);
      dirtyWells.push(pipeline);
    }
    if (pipeline.unsaved && nowMs - pipeline.savedAtMs >= SAVE_EVERY_MS && saves < MAX_SAVES_PER_TURN) {
      saveSnapshot(live, pipeline, nowMs);
      saves++;
    }
  }
  saveNodes(live, nowMs, false);
  if (nowMs - alive.lastAliveMs >= ALIVE_INTERVAL_MS) {
    alive.lastAliveMs = nowMs;
    live.changes.push({ change: 'setting', key: ALIVE_KEY, value: String(nowMs) });
  }
  const committed = await commit(live);
  sendAcks(live, nowMs);
  return { committed, dirtyWells };
}

export const ALIVE_KEY = 'alive-ms';
/** Wells whose nodes are quiet are passed on once a minute: the engine sees whole minutes. */
const BEHIND_MS = MINUTE_MS;

function isBehind(pipeline: WellPipeline, nowMs: number): boolean {
  return nowMs - pipeline.advancedToMs > BEHIND_MS;
}

/** Our own absence is not news: silences between `fromMs` and now are excused. */
export function excuseSilence(live: LiveState, fromMs: number, nowMs: number): void {
  excuseOutage(live, fromMs, nowMs);
  for (const entry of live.nodes.values()) {
    entry.unsaved = true;
  }
}

function sendAcks(live: LiveState, nowMs: number): void {
  if (live.options.observe) return;
  for (const [node, entry] of live.nodes) {
    if (!entry.ackDue || nowMs - entry.ackSentAtMs < ACK_INTERVAL_MS) continue;
    entry.ackDue = false;
    entry.ackSentAtMs = nowMs;
    const payload = entry.approved ? ackPayload(entry.state) : { wait: true as const };
    if (payload)
      live.options.publish(`${live.options.root}/${node}/kept`, formatAck(payload), { qos: 1, retain: true });
  }
}

/** A clean stop: everything derived is saved, so that the next start has nothing to make again. */
export async function saveAll(live: LiveState, nowMs: number): Promise<void> {
  for (const pipeline of live.pipelines.values()) saveSnapshot(live, pipeline, nowMs);
  saveNodes(live, nowMs, true);
  live.changes.push({ change: 'setting', key: ALIVE_KEY, value: String(nowMs) });
  await commit(live);
}
