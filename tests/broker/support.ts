/** Helpers of the broker tests: an MQTT client as a node is one, and waiting for what must come. */
import mqtt, { type IClientOptions, type MqttClient } from 'mqtt';
import type { Arrival } from '../../src/broker/broker.ts';

export interface Heard {
  topic: string;
  payload: Uint8Array;
  how: Arrival;
  user?: string | undefined;
}

/** Gathers messages; `until(n)` resolves when that many came. Waiting ends with the test's own limit alone. */
export function gatherer(): {
  heard: Heard[];
  onMessage: (topic: string, payload: Uint8Array, how: Arrival, user?: string) => void;
  until: (n: number) => Promise<Heard[]>;
} {
  const heard: Heard[] = [];
  let waiting: { n: number; resolve: (all: Heard[]) => void }[] = [];
  return {
    heard,
    onMessage(topic, payload, how, user) {
      heard.push({ topic, payload: Uint8Array.from(payload), how, user });
      for (const wait of waiting.filter(({ n }) => heard.length >= n)) wait.resolve(heard);
      waiting = waiting.filter(({ n }) => heard.length < n);
    },
    until: (n) =>
      heard.length >= n ? Promise.resolve(heard) : new Promise((resolve) => waiting.push({ n, resolve })),
  };
}

export function text(payload: Uint8Array): string {
  return Buffer.from(payload).toString('utf8');
}

/** A node's client: connects once, does not come back by itself. Rejects where the broker refuses it. */
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

export function closed(client: MqttClient): Promise<void> {
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
