/**
 * What every broker must do, whichever carries the messages: one suite that takes a factory. It
 * runs for the built-in broker and for the client on outside ones (tests/mqtt/).
 */
import type { MqttClient } from 'mqtt';
import { afterEach, describe, expect, test } from 'vitest';
import type { Broker, OnMessage } from '../../src/mqtt/broker.ts';
import { connectNode, messageCollector, nextMessage, text } from '../mqtt/support.ts';

export interface BrokerUnderTest {
  /** Where nodes connect. */
  nodeUrl: string;
  /** What node clients need besides the address (a CA, a user). */
  nodeOptions?: Parameters<typeof connectNode>[1];
  /** Opens the broker under test; may be called again after `close`. */
  open(onMessage: OnMessage, acknowledge: 'on-arrival' | 'after-commit'): Promise<Broker>;
  end(): Promise<void>;
}

const BYTES = Uint8Array.from({ length: 256 }, (_, value) => value);

export function brokerSuite(name: string, start: () => Promise<BrokerUnderTest>): void {
  describe(`a broker by contract: ${name}`, () => {
    const ends: (() => Promise<unknown>)[] = [];
    afterEach(async () => {
      for (const end of ends.splice(0).reverse()) await end();
    });

    async function bench(acknowledge: 'on-arrival' | 'after-commit' = 'on-arrival'): Promise<{
      under: BrokerUnderTest;
      broker: Broker;
      box: ReturnType<typeof messageCollector>;
      node: MqttClient;
      connect: (more?: BrokerUnderTest['nodeOptions']) => Promise<MqttClient>;
    }> {
      const under = await start();
      ends.push(() => under.end());
      const box = messageCollector();
      const broker = await under.open(box.onMessage, acknowledge);
      ends.push(() => broker.close());
      const connect = async (more: BrokerUnderTest['nodeOptions'] = {}): Promise<MqttClient> => {
        const client = await connectNode(under.nodeUrl, { ...under.nodeOptions, ...more });
        ends.push(() => client.endAsync(true));
        return client;
      };
      return { under, broker, box, node: await connect(), connect };
    }

    test('hands on each of the four upper topics, and no other', async () => {
      const { broker, box, node } = await bench();
      await broker.publish('wells/shed/kept', '{}', { qos: 1, retain: true });
      await broker.publish('elsewhere/shed/readings', '{}', { qos: 1, retain: false });
      for (const last of ['hello', 'presence', 'readings', 'start'])
        await node.publishAsync(`wells/shed/${last}`, last, { qos: 1 });
      expect((await box.until(4)).map(({ topic, payload }) => [topic, text(payload)])).toEqual([
        ['wells/shed/hello', 'hello'],
        ['wells/shed/presence', 'presence'],
        ['wells/shed/readings', 'readings'],
        ['wells/shed/start', 'start'],
      ]);
    });

    test('hands on payloads byte for byte, the empty one too', async () => {
      const { box, node } = await bench();
      await node.publishAsync('wells/shed/readings', Buffer.from(BYTES), { qos: 1 });
      await node.publishAsync('wells/shed/readings', '', { qos: 1 });
      const heard = await box.until(2);
      expect(heard[0]!.payload).toEqual(BYTES);
      expect(heard[1]!.payload).toHaveLength(0);
    });

    test('hands on the messages of one node in their order, a burst of 500', async () => {
      const { box, node } = await bench();
      await Promise.all(
        Array.from({ length: 500 }, (_, at) =>
          node.publishAsync('wells/shed/readings', String(at), { qos: 1 }),
        ),
      );
      expect((await box.until(500)).map(({ payload }) => Number(text(payload)))).toEqual(
        Array.from({ length: 500 }, (_, at) => at),
      );
    });

    test('a node that speaks now is not retained; what it left behind is, for who comes later', async () => {
      const { under, broker, box, node } = await bench();
      await node.publishAsync('wells/shed/hello', '{"contract":1}', { qos: 1, retain: true });
      expect((await box.until(1))[0]!.how.retained).toBe(false);
      await broker.close();
      const later = messageCollector();
      const again = await under.open(later.onMessage, 'on-arrival');
      ends.push(() => again.close());
      const [copy] = await later.until(1);
      expect({ topic: copy!.topic, payload: text(copy!.payload), retained: copy!.how.retained }).toEqual({
        topic: 'wells/shed/hello',
        payload: '{"contract":1}',
        retained: true,
      });
    });

    test('a Will is handed on when the node’s connection breaks', async () => {
      const { box, connect } = await bench();
      const node = await connect({
        will: { topic: 'wells/shed/presence', payload: Buffer.from('"gone"'), qos: 1, retain: true },
      });
      await node.publishAsync('wells/shed/presence', '"here"', { qos: 1, retain: true });
      await box.until(1);
      node.stream.destroy();
      expect((await box.until(2)).map(({ payload }) => text(payload))).toEqual(['"here"', '"gone"']);
    });

    test('kept reaches the node that listens, and is held for the one that comes later', async () => {
      const { broker, node, connect } = await bench();
      await node.subscribeAsync('wells/shed/kept', { qos: 1 });
      const next = nextMessage(node);
      await broker.publish('wells/shed/kept', '{"boot":1,"seq":7}', { qos: 1, retain: true });
      expect(await next).toEqual({ topic: 'wells/shed/kept', payload: '{"boot":1,"seq":7}', retain: false });
      const late = await connect();
      const held = nextMessage(late);
      await late.subscribeAsync('wells/shed/kept', { qos: 1 });
      expect(await held).toEqual({ topic: 'wells/shed/kept', payload: '{"boot":1,"seq":7}', retain: true });
    });

    test('ask is heard by who listens and not held', async () => {
      const { broker, node, connect } = await bench();
      await node.subscribeAsync('wells/shed/ask', { qos: 1 });
      const next = nextMessage(node);
      await broker.publish('wells/shed/ask', '{"every":1,"forS":600}', { qos: 1, retain: false });
      expect(await next).toMatchObject({ topic: 'wells/shed/ask', retain: false });
      const late = await connect();
      const first = nextMessage(late);
      await late.subscribeAsync('wells/shed/ask', { qos: 1 });
      await broker.publish('wells/shed/ask', 'second', { qos: 1, retain: false });
      expect((await first).payload).toBe('second');
    });

    test('after-commit: every message carries `kept`, and goes on coming while it is called late and twice', async () => {
      const { box, node } = await bench('after-commit');
      const sent = Array.from({ length: 200 }, (_, at) =>
        node.publishAsync('wells/shed/readings', String(at), { qos: 1 }),
      );
      for (let done = 0; done < 200;) {
        const heard = await box.until(done + 1);
        for (const { how } of heard.slice(done)) {
          how.acknowledge!();
          how.acknowledge!();
        }
        done = heard.length;
      }
      await Promise.all(sent);
      expect(box.received.map(({ payload }) => Number(text(payload)))).toEqual(
        Array.from({ length: 200 }, (_, at) => at),
      );
    });

    test('after-commit: what was taken but never kept comes again once connections are dropped', async () => {
      const { broker, box, connect } = await bench('after-commit');
      const node = await connect({ reconnectPeriod: 20, clean: false, clientId: 'shed' });
      const sent = node.publishAsync('wells/shed/readings', 'not kept', { qos: 1 });
      await box.until(1);
      broker.dropConnections();
      const again = (await box.until(2))[1]!;
      expect(text(again.payload)).toBe('not kept');
      again.how.acknowledge!();
      await sent;
    });

    test('on-arrival: no message carries `kept`', async () => {
      const { box, node } = await bench();
      await node.publishAsync('wells/shed/readings', 'r', { qos: 1 });
      expect((await box.until(1))[0]!.how.acknowledge).toBeUndefined();
    });

    test('after close nothing is published, and closing twice is fine', async () => {
      const { broker } = await bench();
      await broker.close();
      await broker.close();
      await expect(broker.publish('wells/shed/kept', '{}', { qos: 1, retain: true })).rejects.toThrow(
        'Cannot publish to wells/shed/kept',
      );
    });
  });
}
