/**
 * The demo's farm on a thread of its own: first its past, as fast as the server takes it, then in real time. The server's clock
 * during the past is a number shared with this thread, set before the packs of that moment go out.
 */
import { parentPort, workerData } from 'node:worker_threads';
import { alderBench } from '../farm.ts';
import { connectNode, nextPack, publishPack, sayHello, type DemoNode } from './node.ts';

export interface DemoOrder {
  brokerUrl: string;
  fromMs: number;
  /** When the demo began, by the machine's clock: the stories end here. */
  nowMs: number;
  /** One Float64: the server's clock during the past. */
  clock: SharedArrayBuffer;
}

export type DemoWord = { word: 'past'; toMs: number } | { word: 'live' } | { word: 'failed'; why: string };

/** A reading each 5 s, packs of 500 readings: 250 moments of two channels. */
const PAST_EVERY_S = 5;
const PACK_MS = 250 * PAST_EVERY_S * 1000;
const LIVE_EVERY_S = 1;
const LIVE_PACK_MS = 5000;
/** The server catches its breath (and saves) each quarter of a day of the past. */
const WORD_EVERY_MS = 6 * 3_600_000;

const order = workerData as DemoOrder;
const clock = new Float64Array(order.clock);

function tell(word: DemoWord): void {
  parentPort?.postMessage(word);
}

async function past(nodes: DemoNode[]): Promise<number> {
  let toldMs = order.fromMs;
  let toMs = order.fromMs;
  let packs: (Uint8Array | undefined)[] = [];
  for (;;) {
    const nextMs = Math.min(toMs + PACK_MS, wholeStep(Date.now()));
    const sent = nodes.map((node, at) => (packs[at] ? publishPack(node, packs[at]) : Promise.resolve()));
    // The next packs are made while the server works on these.
    packs = nodes.map((node) => nextPack(node, nextMs, PAST_EVERY_S));
    await Promise.all(sent);
    if (nextMs <= toMs) return toMs;
    toMs = nextMs;
    clock[0] = toMs;
    if (toMs - toldMs < WORD_EVERY_MS) continue;
    toldMs = toMs;
    tell({ word: 'past', toMs });
  }
}

function wholeStep(tMs: number): number {
  return Math.floor(tMs / LIVE_PACK_MS) * LIVE_PACK_MS;
}

async function live(nodes: DemoNode[], fromMs: number): Promise<never> {
  tell({ word: 'live' });
  for (const node of nodes) await sayHello(node, LIVE_EVERY_S);
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
  for (const { params } of alderBench(order.nowMs))
    nodes.push(await connectNode(order.brokerUrl, params, order.fromMs, PAST_EVERY_S));
  await live(nodes, await past(nodes));
} catch (error) {
  tell({ word: 'failed', why: error instanceof Error ? error.message : String(error) });
}
