/**
 * A load of simulated nodes over loopback against a server process that is killed at given counts
 * of packs. The server's clock is moved from here, by what is kept and never by how much time goes
 * by: the machine's speed changes nothing.
 */
import { fork, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { ServerMessage, ParentMessage } from './server-process.ts';
import { isDone, sendTo, startNode, type SimNode } from './sim-node.ts';

const SCRIPT = fileURLToPath(new URL('server-process.ts', import.meta.url));
/**
 * Nobody runs ahead of the slowest by more packs: time goes on for all alike, and nobody is late.
 */
const MAX_PACKS_AHEAD = 3;
/** `kept` goes out once a second a node at most (contract, section 4). */
const TICK_MS = 1001;

export interface LoadPlan {
  dataDir: string;
  nodes: { name: string; packs: Uint8Array[]; hello: Uint8Array }[];
  /** Done before the first pack. */
  acts: Record<string, unknown>[];
  startMs: number;
  /** Time in one pack. */
  packMs: number;
  /** The server's store answers each call after a delay drawn from this seed. */
  delaySeed?: number;
  /** The server is killed when so many packs were sent. */
  killAt: readonly number[];
}

export interface Load {
  /** Resolves when everything is kept. */
  done: Promise<void>;
  sent: () => number;
  /** Ends the server in peace. Returns what it complained of. */
  end: (nowMs: number) => Promise<string[]>;
}

interface LoadState {
  plan: LoadPlan;
  child: ChildProcess;
  port: number;
  nodes: SimNode[];
  kills: number[];
  clockMs: number;
  killing: boolean;
  /** Nodes that wait for the `kept` of the last tick, with what they had. */
  awaitingAck: Map<SimNode, number>;
  problems: string[];
  settle: { resolve: () => void; reject: (error: unknown) => void };
}

export async function startLoad(plan: LoadPlan): Promise<Load> {
  const settle = { resolve: (): void => undefined, reject: (_error: unknown): void => undefined };
  const done = new Promise<void>((resolve, reject) => Object.assign(settle, { resolve, reject }));
  const problems: string[] = [];
  const server = await startServer(plan, 0, plan.startMs, problems);
  const running: LoadState = {
    plan,
    ...server,
    nodes: [],
    kills: [...plan.killAt],
    clockMs: plan.startMs,
    killing: false,
    awaitingAck: new Map(),
    problems,
    settle,
  };
  await doActs(running, plan.acts);
  const change = (): void => advance(running);
  for (const { name, packs, hello } of plan.nodes) {
    running.nodes.push(startNode(name, packs, hello, running.port, change));
  }
  return { done, sent: () => sentBy(running), end: (nowMs) => end(running, nowMs) };
}

async function startServer(
  { dataDir, delaySeed }: LoadPlan,
  port: number,
  nowMs: number,
  problems: string[],
): Promise<{ child: ChildProcess; port: number }> {
  const seed = delaySeed === undefined ? [] : [String(delaySeed)];
  const child = fork(SCRIPT, [dataDir, String(port), String(nowMs), ...seed], {
    execArgv: ['--import', 'tsx'],
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  const opened = await new Promise<number>((resolve, reject) => {
    child.once('exit', (code, signal) =>
      reject(new Error(`The server ended before it opened: ${signal ?? code}`)),
    );
    child.on('message', (answer: ServerMessage) => {
      if (answer.is === 'open') resolve(answer.port);
      else if (answer.is === 'trouble') problems.push(answer.sentence);
    });
  });
  return { child, port: opened };
}

/**
 * Done before the first pack comes, however long the store takes: an act has the time at which it
 * is done, and the clock moves with the packs.
 */
async function doActs(running: LoadState, acts: LoadPlan['acts']): Promise<void> {
  const { child } = running;
  const done = new Promise<void>((resolve) => {
    let left = acts.length;
    child.on('message', (answer: ServerMessage) => {
      if (answer.is === 'done' && --left === 0) resolve();
    });
  });
  for (const act of acts) sendToServer(running, { is: 'act', act });
  await done;
}

/** A word to a server that has just been killed is lost, as it should be. */
function sendToServer({ child }: LoadState, message: ParentMessage): void {
  if (child.connected) child.send(message, () => undefined);
}

function sentBy({ nodes }: LoadState): number {
  return nodes.reduce((sum, node) => sum + node.sent, 0);
}

function advance(running: LoadState): void {
  const { nodes, plan, kills } = running;
  if (running.killing || nodes.length < plan.nodes.length) return;
  const ackedRound = Math.min(...nodes.map((node) => node.ackedSeq));
  moveClock(running, plan.startMs + (ackedRound + 1) * plan.packMs);
  for (const node of nodes) sendTo(node, ackedRound + MAX_PACKS_AHEAD, () => advance(running));
  if (kills[0] !== undefined && sentBy(running) >= kills[0]) {
    kills.shift();
    restart(running).then(() => advance(running), running.settle.reject);
  } else if (nodes.every(isDone)) running.settle.resolve();
  else tickIfIdle(running);
}

function moveClock(running: LoadState, toMs: number): void {
  if (toMs <= running.clockMs) return;
  running.clockMs = toMs;
  sendToServer(running, { is: 'clock', nowMs: toMs });
}

/** All that was sent is answered, and nobody was told yet that it is kept: a second goes by. */
function tickIfIdle(running: LoadState): void {
  const { nodes, awaitingAck } = running;
  for (const [node, had] of awaitingAck) if (node.ackedSeq > had) awaitingAck.delete(node);
  if (awaitingAck.size > 0 || nodes.some((node) => !node.connected || node.unanswered > 0)) return;
  for (const node of nodes) if (node.answeredSeq > node.ackedSeq) awaitingAck.set(node, node.ackedSeq);
  if (awaitingAck.size > 0) moveClock(running, running.clockMs + TICK_MS);
}

async function restart(running: LoadState): Promise<void> {
  const { plan, child, port, clockMs, problems } = running;
  running.killing = true;
  const gone = once(child, 'exit');
  child.kill('SIGKILL');
  await gone;
  Object.assign(running, await startServer(plan, port, clockMs, problems));
  running.awaitingAck.clear();
  running.killing = false;
}

async function end(running: LoadState, nowMs: number): Promise<string[]> {
  await Promise.all(running.nodes.map((node) => node.client.endAsync(true)));
  const ended = once(running.child, 'exit') as Promise<[number | null, string | null]>;
  sendToServer(running, { is: 'end', nowMs });
  const [code, signal] = await ended;
  return code === 0 ? running.problems : [...running.problems, `It ended with ${signal ?? code}.`];
}
