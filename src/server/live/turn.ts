/**
 * One turn of the live server: what came since the last one, all wells it touched, one commit, and
 * only then `kept`. The clock is read once, by the caller, who lets nobody else at the state until
 * the turn has settled: it waits for the store.
 */
import { ackPayload } from '../../core/readings/ack.ts';
import { formatAck } from '../../core/decode/server-messages.ts';
import { handleMessage, type ReceivedMessage } from './intake.ts';
import type { WellPipeline } from '../../core/fleet/well-pipeline.ts';
import { advanceToFrontier } from '../../core/fleet/advance-well.ts';
import { dispatchNews, excuseOutage } from '../../core/fleet/node-news.ts';
import { applyEffects } from './apply-effect.ts';
import { rerun, rerunDueMs } from './rerun.ts';
import { saveDueMs, saveNodes, saveSnapshot } from './save.ts';
import type { LiveState, NodeEntry } from './state.ts';

/** `kept` goes out once a second a node at most (contract, section 4). */
const ACK_INTERVAL_MS = 1000;
/** Wells to save in one turn: their state is packed on this thread, about 1 ms each. */
const MAX_SAVES_PER_TURN = 20;
/**
 * Saves that time alone brings wait for each other this long: ten minutes more or less do not
 * count, and a commit costs more than a save.
 */
const SAVE_INTERVAL_MS = 1000;
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
  live.wakeAtMs = nextWakeMs(live);
  return { committed, dirtyWells };
}

function advanceWell(live: LiveState, pipeline: WellPipeline, nowMs: number): void {
  live.counts.advances++;
  advanceToFrontier(live, pipeline, nowMs, applyEffects(live, nowMs));
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
    if (nowMs >= rerunDueMs(pipeline)) await rerun(live, pipeline, pipeline.rerunFromMs!, nowMs);
  }
}

/**
 * Time goes on where nothing comes: news of silent nodes, wells that can go on by time alone, saves
 * that are due, and `kept` that was held back. Before `wakeAtMs` of the state there is none of it,
 * and no node or well is asked.
 */
export async function tick(
  live: LiveState,
  nowMs: number,
  alive: { lastAliveMs: number },
): Promise<TurnResult> {
  const awake = nowMs >= live.wakeAtMs;
  const dirtyWells = awake ? await advanceDueWells(live, nowMs) : [];
  if (nowMs >= aliveDueMs(alive)) {
    alive.lastAliveMs = nowMs;
    live.changes.push({ change: 'setting', key: ALIVE_KEY, value: String(nowMs) });
  }
  const committed = await commit(live);
  if (awake) {
    sendAcks(live, nowMs);
    live.wakeAtMs = nextWakeMs(live);
  }
  return { committed, dirtyWells };
}

export const ALIVE_KEY = 'alive-ms';

/** When the next sign of life is due. */
export function aliveDueMs({ lastAliveMs }: { lastAliveMs: number }): number {
  return lastAliveMs + ALIVE_INTERVAL_MS;
}

async function advanceDueWells(live: LiveState, nowMs: number): Promise<WellPipeline[]> {
  live.counts.wakes++;
  await runDueReruns(live, nowMs);
  dispatchNews(live, nowMs, applyEffects(live, nowMs));
  const maxSaves = nowMs < live.savesFromMs ? 0 : MAX_SAVES_PER_TURN;
  let saves = 0;
  const dirtyWells: WellPipeline[] = [];
  for (const pipeline of live.pipelines.values()) {
    if (nowMs >= pipeline.dueMs) {
      advanceWell(live, pipeline, nowMs);
      dirtyWells.push(pipeline);
    }
    if (saves >= maxSaves || nowMs < saveDueMs(pipeline)) continue;
    saveSnapshot(live, pipeline, nowMs);
    saves++;
  }
  saves += saveNodes(live, nowMs, false);
  if (saves > 0) live.savesFromMs = nowMs + SAVE_INTERVAL_MS;
  return dirtyWells;
}

/** The earliest deadline of all nodes and wells. */
function nextWakeMs(live: LiveState): number {
  // News is made after its time, not at it.
  let wakeMs = live.newsDueMs + 1;
  let saveMs = Number.POSITIVE_INFINITY;
  for (const pipeline of live.pipelines.values()) {
    wakeMs = Math.min(wakeMs, pipeline.dueMs, rerunDueMs(pipeline));
    saveMs = Math.min(saveMs, saveDueMs(pipeline));
  }
  for (const entry of live.nodes.values()) {
    saveMs = Math.min(saveMs, saveDueMs(entry));
    if (entry.ackDue && !live.options.observe) wakeMs = Math.min(wakeMs, ackDueMs(entry));
  }
  return Math.min(wakeMs, Math.max(saveMs, live.savesFromMs));
}

/** Our own absence is not news: silences between `fromMs` and now are excused. */
export function excuseSilence(live: LiveState, fromMs: number, nowMs: number): void {
  excuseOutage(live, fromMs, nowMs);
  for (const entry of live.nodes.values()) {
    entry.unsaved = true;
  }
}

function ackDueMs({ ackSentAtMs }: NodeEntry): number {
  return ackSentAtMs + ACK_INTERVAL_MS;
}

function sendAcks(live: LiveState, nowMs: number): void {
  if (live.options.observe) return;
  for (const [node, entry] of live.nodes) {
    if (!entry.ackDue || nowMs < ackDueMs(entry)) continue;
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
