/** Helpers of the broker tests: an MQTT client as a node is one, and waiting for what must come. */
import mqtt, { type IClientOptions, type MqttClient } from 'mqtt';
import type { MessageInfo } from '../../src/mqtt/broker.ts';

export interface ReceivedMessage {
  topic: string;
  payload: Uint8Array;
  how: MessageInfo;
  user?: string | undefined;
}

/**
 * Gathers messages; `until(n)` resolves when that many came. Waiting ends with the test's own limit
 * alone.
 */
export function messageCollector(): {
  received: ReceivedMessage[];
  onMessage: (topic: string, payload: Uint8Array, how: MessageInfo, user?: string) => void;
  until: (n: number) => Promise<ReceivedMessage[]>;
} {
  const received: ReceivedMessage[] = [];
  let pending: { n: number; resolve: (all: ReceivedMessage[]) => void }[] = [];
  return {
    received,
    onMessage(topic, payload, how, user) {
      received.push({ topic, payload: Uint8Array.from(payload), how, user });
      for (const wait of pending.filter(({ n }) => received.length >= n)) wait.resolve(received);
      pending = pending.filter(({ n }) => received.length < n);
    },
    until: (n) =>
      received.length >= n
        ? Promise.resolve(received)
        : new Promise((resolve) => pending.push({ n, resolve })),
  };
}

export function text(payload: Uint8Array): string {
  return Buffer.from(payload).toString('utf8');
}

/**
 * A node's client: connects once, does not come back by itself. Rejects where the broker refuses
 * it.
 */
export async function connectNode(url: string, options: IClientOptions = {}): Promise<MqttClient> {
  const client = mqtt.connect(url, { reconnectPeriod: 0, timerVariant: 'native', ...options });
  await new Promise<void>((resolve, reject) => {
    client.once('connect', () => resolve());
    client.once('error', reject);
    client.once('close', () => reject(new Error('closed before it was connected')));
  });
  client.on('error', () => undefined);
  return client;
}

export function untilClosed(client: MqttClient): Promise<void> {
  return new Promise((resolve) => (client.connected ? client.once('close', () => resolve()) : resolve()));
}

/** The next message on a client. */
export function nextMessage(
  client: MqttClient,
): Promise<{ topic: string; payload: string; retain: boolean }> {
  return new Promise((resolve) =>
    client.once('message', (topic, payload, packet) =>
      resolve({ topic, payload: payload.toString(), retain: packet.retain }),
    ),
  );
}
