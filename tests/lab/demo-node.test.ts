/**
 * What the server hears of one simulated node, from its first word to the broker's word that it is
 * gone.
 */
import { afterEach, describe, expect, it } from 'vitest';
import { openBuiltInBroker, type BuiltInBroker } from '../../src/mqtt/built-in.ts';
import { connectNode, nextPack } from '../../src/lab/demo/node.ts';
import { demoWells } from '../../src/lab/demo-wells.ts';
import type { Message } from '../../src/core/decode/messages.ts';
import { readMessage } from '../../src/core/decode/read-message.ts';

const FROM_MS = Date.UTC(2026, 0, 5);
const params = demoWells(FROM_MS)[0]!.params;
let broker: BuiltInBroker | undefined;
let heard: Message[] = [];
let onHeard: () => void = () => undefined;

async function open(): Promise<string> {
  heard = [];
  broker = await openBuiltInBroker({
    host: '127.0.0.1',
    port: 0,
    root: 'wells',
    allowLocal: true,
    credential: () => Promise.resolve(undefined),
    onMessage: (topic, payload, { retained }) => {
      heard.push(readMessage({ root: 'wells', topic, payload, retained, arrivalMs: FROM_MS }));
      onHeard();
    },
  });
  return `mqtt://127.0.0.1:${broker.port}`;
}

afterEach(async () => {
  onHeard = () => undefined;
  await broker?.close();
  broker = undefined;
});

describe('connectNode', () => {
  it('says that it is here and who it is; when its line breaks, the broker says that it is gone', async () => {
    const node = await connectNode(await open(), params, FROM_MS, 5);
    expect(heard).toMatchObject([
      { is: 'presence', node: 'house', presence: 'here', retained: false },
      {
        is: 'hello',
        retained: false,
        hello: {
          node: 'house',
          boot: FROM_MS,
          channels: [
            { n: 'current', u: 'A', every: 5 },
            { n: 'pressure', u: 'Pa', every: 5 },
          ],
        },
      },
    ]);
    const gone = new Promise<void>((done) => {
      onHeard = done;
    });
    node.client.options.reconnectPeriod = 0;
    node.client.stream.destroy();
    await gone;
    expect(heard.at(-1)).toMatchObject({ is: 'presence', node: 'house', presence: 'gone' });
    await node.client.endAsync(true);
  });
});

describe('nextPack', () => {
  it('goes on where the last pack ended: each sample once, packs numbered from 1', async () => {
    const node = await connectNode(await open(), params, FROM_MS, 5);
    const times: number[] = [];
    for (let seq = 1; seq <= 4; seq++) {
      const payload = nextPack(node, FROM_MS + seq * 60_000, 5)!;
      const read = readMessage({
        root: 'wells',
        topic: 'wells/house/readings',
        payload,
        retained: false,
        arrivalMs: FROM_MS,
      });
      if (read.is !== 'pack') throw new Error(`read as ${read.is}`);
      expect(read.pack).toMatchObject({ clock: 'utc', boot: FROM_MS, seq });
      expect(read.pack.columns.map((column) => column.channel)).toEqual(['current', 'pressure']);
      times.push(...read.pack.columns[0]!.times);
    }
    expect(times).toEqual(Array.from({ length: 48 }, (_, i) => times[0]! + i * 5000));
    expect(nextPack(node, FROM_MS + 4 * 60_000, 5)).toBeUndefined();
    expect(node.seq).toBe(4);
    await node.client.endAsync();
  });
});
