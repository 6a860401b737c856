/**
 * One turn of the live server: what came since the last one, all wells it touched, one commit, and only then `kept`. The clock is
 * read once, by the caller.
 */
import { excuseAway } from '../../readings/node.ts';
import { keptPayload } from '../../readings/kept.ts';
import { printKept } from '../../wire/kept.ts';
import { takeMessage, type Came } from './intake.ts';
import type { Line } from './line.ts';
import { passNews } from './news.ts';
import { passLive } from './pass.ts';
import { RERUN_EVERY_MS, rerun } from './rerun.ts';
import { SAVE_EVERY_MS, saveLine, saveNodes } from './save.ts';
import type { LiveState } from './state.ts';

/** `kept` goes out once a second a node at most (contract, section 4). */
const KEPT_EVERY_MS = 1000;
/** Wells to save in one turn: their state is packed on this thread, about 1 ms each. */
const SAVES_A_TURN = 20;
/** The last sign of life, so that a restart knows how long nobody watched. */
const ALIVE_EVERY_MS = 30_000;

export interface TurnEnd {
  /** Something was committed. */
  committed: boolean;
  touched: readonly Line[];
}

/**
 * Runs again first what is due, since that reads only what is committed, then takes the messages and does `acts`. Throws StoreError
 * where the commit failed: nothing of the turn is kept then.
 */
export function turn(live: LiveState, came: readonly Came[], nowMs: number, acts?: () => void): TurnEnd {
  rerunDue(live, nowMs);
  for (const message of came) takeMessage(live, message);
  acts?.();
  const touched = [...live.touched];
  live.touched.clear();
  for (const line of touched) passLive(live, line, nowMs);
  saveNodes(live, nowMs, false);
  const committed = commit(live);
  for (const message of came) message.kept?.();
  sendKept(live, nowMs);
  return { committed, touched };
}

function commit(live: LiveState): boolean {
  const { changes } = live;
  if (changes.length === 0) return false;
  live.changes = [];
  const began = process.hrtime.bigint();
  live.options.store.commit(changes);
  live.counts.commits++;
  live.counts.commitMs += Number(process.hrtime.bigint() - began) / 1e6;
  return true;
}

function rerunDue(live: LiveState, nowMs: number): void {
  for (const line of live.lines.values()) {
    if (line.rerunFromMs === undefined || nowMs - line.reranAtMs < RERUN_EVERY_MS) continue;
    rerun(live, line, line.rerunFromMs, nowMs);
  }
}

/**
 * Once a second: time goes on where nothing comes. News of silent nodes, wells whose nodes are waited for no longer, saves that are
 * due, and `kept` that was held back.
 */
export function beat(live: LiveState, nowMs: number, tidy: { lastAliveMs: number }): TurnEnd {
  rerunDue(live, nowMs);
  passNews(live, nowMs);
  let saves = 0;
  const touched: Line[] = [];
  for (const line of live.lines.values()) {
    if (line.waiting.length > 0 || isBehind(line, nowMs)) {
      passLive(live, line, nowMs);
      touched.push(line);
    }
    if (line.unsaved && nowMs - line.savedAtMs >= SAVE_EVERY_MS && saves < SAVES_A_TURN) {
      saveLine(live, line, nowMs);
      saves++;
    }
  }
  saveNodes(live, nowMs, false);
  if (nowMs - tidy.lastAliveMs >= ALIVE_EVERY_MS) {
    tidy.lastAliveMs = nowMs;
    live.changes.push({ change: 'value', key: ALIVE_KEY, value: String(nowMs) });
  }
  const committed = commit(live);
  sendKept(live, nowMs);
  return { committed, touched };
}

export const ALIVE_KEY = 'alive-ms';
/** Wells whose nodes are quiet are passed on once a minute: the engine sees whole minutes. */
const BEHIND_MS = 60_000;

function isBehind(line: Line, nowMs: number): boolean {
  return nowMs - line.passedMs > BEHIND_MS;
}

/** Our own absence is not news: silences between `fromMs` and now are excused. */
export function excuse(live: LiveState, fromMs: number, nowMs: number): void {
  for (const entry of live.nodes.values()) {
    excuseAway(entry.state, fromMs, nowMs);
    entry.unsaved = true;
  }
}

function sendKept(live: LiveState, nowMs: number): void {
  if (live.options.observe) return;
  for (const [node, entry] of live.nodes) {
    if (!entry.keptDue || nowMs - entry.keptAtMs < KEPT_EVERY_MS) continue;
    entry.keptDue = false;
    entry.keptAtMs = nowMs;
    const payload = entry.letIn ? keptPayload(entry.state) : { wait: true as const };
    if (payload)
      live.options.publish(`${live.options.root}/${node}/kept`, printKept(payload), { qos: 1, retain: true });
  }
}

/** A clean stop: everything derived is saved, so that the next start has nothing to make again. */
export function saveAll(live: LiveState, nowMs: number): void {
  for (const line of live.lines.values()) saveLine(live, line, nowMs);
  saveNodes(live, nowMs, true);
  live.changes.push({ change: 'value', key: ALIVE_KEY, value: String(nowMs) });
  commit(live);
}
