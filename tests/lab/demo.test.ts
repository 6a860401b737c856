/**
 * The demo's nodes, and the thread they live on (src/lab/demo/worker.ts), against the built-in
 * broker.
 */
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { afterEach, describe, expect, it } from 'vitest';
import { openBuiltInBroker, type BuiltInBroker } from '../../src/mqtt/built-in.ts';
import { connectNode, nextPack, publishPack, publishHello } from '../../src/lab/demo/node.ts';
import type { DemoTask, DemoMessage } from '../../src/lab/demo/worker.ts';
import { demoWells } from '../../src/lab/demo-wells.ts';
import type { Message } from '../../src/core/decode/messages.ts';
import { readMessage } from '../../src/core/decode/read-message.ts';

let broker: BuiltInBroker | undefined;
const came: Message[] = [];

async function open(): Promise<string> {
  came.length = 0;
  broker = await openBuiltInBroker({
    host: '127.0.0.1',
    port: 0,
    root: 'wells',
    allowLocal: true,
    credential: () => Promise.resolve(undefined),
    onMessage: (topic, payload, how) =>
      void came.push(readMessage({ root: 'wells', topic, payload, retained: how.retained, arrivalMs: 0 })),
  });
  return `mqtt://127.0.0.1:${broker.port}`;
}

afterEach(async () => {
  await broker?.close();
  broker = undefined;
});

const kinds = (): string[] => came.map((message) => message.is);

describe('a node of the demo', () => {
  it('says who it is and sends what the contract allows', async () => {
    const url = await open();
    const fromMs = Date.UTC(2026, 0, 5);
    const node = await connectNode(url, demoWells(fromMs)[0]!.params, fromMs, 5);
    const pack = nextPack(node, fromMs + 1_250_000, 5)!;
    await publishPack(node, pack);
    await publishHello(node, 1);
    await node.client.endAsync();
    expect(kinds()).toEqual(['presence', 'hello', 'pack', 'hello']);
    const [, , sent] = came;
    expect(sent).toMatchObject({ pack: { node: 'house', seq: 1 } });
    expect(sent!.is === 'pack' && sent!.pack.columns[0]!.values.length).toBe(250);
  });
});

describe('the thread of the demo', () => {
  it('sends the past of four wells, the clock before the packs, then goes live', async () => {
    const brokerUrl = await open();
    const nowMs = Date.now();
    const clock = new SharedArrayBuffer(8);
    const order: DemoTask = {
      brokerUrl,
      fromMs: Math.floor(nowMs / 60_000) * 60_000 - 7_200_000,
      nowMs,
      clock,
    };
    const built = fileURLToPath(new URL('../../dist/src/lab/demo/worker.js', import.meta.url));
    const worker = new Worker(built, { workerData: order });
    const word = await new Promise<DemoMessage>((resolve, reject) => {
      worker.on('message', (said: DemoMessage) => {
        if (said.type !== 'past') resolve(said);
      });
      worker.on('error', reject);
    });
    await worker.terminate();
    expect(word).toEqual({ type: 'live' });
    const packs = came.filter((message) => message.is === 'pack');
    expect(new Set(packs.map((message) => message.pack.node)).size).toBe(4);
    const latest = Math.max(...packs.map((message) => message.pack.columns[0]!.times.at(-1)!));
    expect(new Float64Array(clock)[0]!).toBeGreaterThan(latest);
    expect(kinds()).not.toContain('refusal');
  });
});
