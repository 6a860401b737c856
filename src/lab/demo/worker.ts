/**
 * The demo's farm on a thread of its own: first its past, as fast as the server takes it, then in
 * real time. The server's clock during the past is a number shared with this thread, set before the
 * packs of that moment go out.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { HOUR_MS } from '../../../shared/units/duration.ts';
import { demoWells } from '../demo-wells.ts';
import { connectNode, nextPack, publishPack, publishHello, type DemoNode } from './node.ts';

export interface DemoTask {
  brokerUrl: string;
  fromMs: number;
  /** When the demo began, by the machine's clock: the stories end here. */
  nowMs: number;
  /** One Float64: the server's clock during the past. */
  clock: SharedArrayBuffer;
}

export type DemoMessage = { type: 'past'; toMs: number } | { type: 'live' } | { type: 'failed'; why: string };

/** A reading each 5 s, packs of 500 readings: 250 moments of two channels. */
const HISTORY_EVERY_S = 5;
const PACK_MS = 250 * HISTORY_EVERY_S * 1000;
const LIVE_EVERY_S = 1;
const LIVE_PACK_MS = 5000;
/** The server catches its breath (and saves) each quarter of a day of the past. */
const PROGRESS_INTERVAL_MS = 6 * HOUR_MS;

const order = workerData as DemoTask;
const clock = new Float64Array(order.clock);

function report(message: DemoMessage): void {
  parentPort?.postMessage(message);
}

async function sendHistory(nodes: DemoNode[]): Promise<number> {
  let reportedMs = order.fromMs;
  let toMs = order.fromMs;
  let packs: (Uint8Array | undefined)[] = [];
  for (;;) {
    const nextMs = Math.min(toMs + PACK_MS, wholeStep(Date.now()));
    const sent = nodes.map((node, at) => (packs[at] ? publishPack(node, packs[at]) : Promise.resolve()));
    // The next packs are made while the server works on these.
    packs = nodes.map((node) => nextPack(node, nextMs, HISTORY_EVERY_S));
    await Promise.all(sent);
    if (nextMs <= toMs) return toMs;
    toMs = nextMs;
    clock[0] = toMs;
    if (toMs - reportedMs < PROGRESS_INTERVAL_MS) continue;
    reportedMs = toMs;
    report({ type: 'past', toMs });
  }
}

function wholeStep(tMs: number): number {
  return Math.floor(tMs / LIVE_PACK_MS) * LIVE_PACK_MS;
}

async function sendLive(nodes: DemoNode[], fromMs: number): Promise<never> {
  report({ type: 'live' });
  for (const node of nodes) await publishHello(node, LIVE_EVERY_S);
  for (let toMs = fromMs + LIVE_PACK_MS; ; toMs += LIVE_PACK_MS) {
    await wait(toMs - Date.now());
    for (const node of nodes) {
      const pack = nextPack(node, toMs, LIVE_EVERY_S);
      if (pack) await publishPack(node, pack);
    }
  }
}

function wait(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, Math.max(0, ms)));
}

try {
  const nodes: DemoNode[] = [];
  for (const { params } of demoWells(order.nowMs))
    nodes.push(await connectNode(order.brokerUrl, params, order.fromMs, HISTORY_EVERY_S));
  await sendLive(nodes, await sendHistory(nodes));
} catch (error) {
  report({ type: 'failed', why: error instanceof Error ? error.message : String(error) });
}
