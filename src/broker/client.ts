/**
 * The line to any outside MQTT broker. The session outlives the connection, and with `when-kept` a message is acknowledged only
 * after our commit, so that the broker holds and repeats what we had not kept. Lost connections are tried again by ourselves,
 * after 1 s, 2 s, 4 s … 60 s, each shortened by up to half at random so that many servers do not come back in step.
 */
import mqtt, { type IPublishPacket, type MqttClient } from 'mqtt';
import { UPPER_TOPICS, type Acknowledge, type Arrival, type Broker, type OnMessage } from './broker.ts';
import { clientOptions, type BrokerClientSettings } from './client-options.ts';
import { brokerProblem } from './problem.ts';

export interface BrokerClientOptions extends BrokerClientSettings {
  root: string;
  onMessage: OnMessage;
  acknowledge?: Acknowledge;
  /** Name of a shared subscription: several servers that share the wells. */
  shareName?: string;
  /** Told of each change: connected and listening, or not, with one sentence on what to do. */
  onState?: (state: { connected: true } | { connected: false; problem: string }) => void;
  /** What the first failure does: `retry` (default) opens anyway and goes on trying, `reject` rejects with the sentence. */
  firstFailure?: 'retry' | 'reject';
}

const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 60_000;

/** How long to wait before the try after `failures` in a row; `random` in [0, 1). */
export function waitBeforeTry(failures: number, random: number): number {
  const full = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(failures - 1, 16));
  return Math.max(FIRST_WAIT_MS / 2, Math.round(full * (1 - random / 2)));
}

interface Line {
  options: BrokerClientOptions;
  client: MqttClient;
  closing: boolean;
  failures: number;
  /** Connected and subscribed. */
  up: boolean;
  lastError: unknown;
  timer?: NodeJS.Timeout;
  /** Acknowledgements of this turn, and the connection they belong to. */
  acks: number[];
  settle: (error?: Error) => void;
}

/**
 * Connects and subscribes to the four upper topics of all nodes. Resolves when that is done, or at the first failure (which `onState`
 * tells) while trying goes on. Rejects on settings that can never work and, where asked to, on the first failure.
 */
export async function openBrokerClient(options: BrokerClientOptions): Promise<Broker> {
  const client = mqtt.connect(options.url, { ...clientOptions(options), manualConnect: true });
  let settle: Line['settle'] = () => undefined;
  const first = new Promise<Error | undefined>((resolve) => (settle = resolve));
  const line: Line = {
    options,
    client,
    closing: false,
    failures: 0,
    up: false,
    lastError: undefined,
    acks: [],
    settle,
  };
  client.handleMessage = (packet, done) => takeMessage(line, packet, done);
  client.on('connect', () => subscribe(line));
  client.on('error', (error) => (line.lastError = error));
  client.on('close', () => lost(line));
  client.connect();
  const failed = await first;
  if (failed !== undefined && options.firstFailure === 'reject') {
    await close(line);
    throw failed;
  }
  return {
    publish: (topic, payload, how) => publish(line, topic, payload, how),
    close: () => close(line),
    dropConnections: () => drop(line),
    connectedNodes: () => [],
  };
}

function subscribe(line: Line): void {
  const { root, shareName } = line.options;
  const prefix = shareName === undefined ? '' : `$share/${shareName}/`;
  const filters = UPPER_TOPICS.map((last) => `${prefix}${root}/+/${last}`);
  line.client.subscribe(filters, { qos: 1 }, (error) => {
    if (line.closing) return;
    if (error !== null && error !== undefined) {
      line.lastError = line.client.connected ? { code: 128 } : error;
      line.client.stream.destroy();
      return;
    }
    line.failures = 0;
    line.up = true;
    line.lastError = undefined;
    line.options.onState?.({ connected: true });
    line.settle();
  });
}

/** The connection is gone, or never came: say so and try again later. */
function lost(line: Line): void {
  line.up = false;
  line.acks = [];
  if (line.closing || line.timer !== undefined) return;
  line.failures += 1;
  const reason = line.lastError ?? new Error('the connection was lost; it will be tried again');
  const problem = brokerProblem(reason, line.options.url);
  line.lastError = undefined;
  line.options.onState?.({ connected: false, problem });
  line.timer = setTimeout(
    () => {
      delete line.timer;
      if (!line.closing) line.client.reconnect();
    },
    waitBeforeTry(line.failures, Math.random()),
  );
  line.settle(new Error(problem, { cause: reason }));
}

/**
 * One message. The library sends the acknowledgement when `done` is called without error, and takes the next message only
 * then; to let many messages wait for one commit, `done` is called with an error (which holds the acknowledgement back and does
 * nothing else) and the acknowledgement is written by ourselves.
 */
function takeMessage(line: Line, packet: IPublishPacket, done: (error?: Error) => void): void {
  const how: Arrival = { retained: packet.retain, qos: packet.qos };
  const contentType = packet.properties?.contentType;
  if (contentType !== undefined) how.contentType = contentType;
  const held = line.options.acknowledge === 'when-kept' && packet.qos === 1 && packet.messageId !== undefined;
  if (held) how.kept = acknowledger(line, packet.messageId!);
  else if (line.options.acknowledge === 'when-kept') how.kept = () => undefined;
  if (!line.closing) line.options.onMessage(packet.topic, bytesOf(packet.payload), how);
  done(held ? new Error('acknowledged later') : undefined);
}

function acknowledger(line: Line, messageId: number): () => void {
  const stream = line.client.stream;
  let called = false;
  return () => {
    if (called || line.client.stream !== stream || !line.client.connected) return;
    called = true;
    if (line.acks.length === 0) queueMicrotask(() => writeAcks(line));
    line.acks.push(messageId);
  };
}

/** PUBACK in both versions: 0x40, length 2, packet identifier (MQTT 3.1.1 section 3.4; MQTT 5 section 3.4.2.1 lets the reason code be left out). */
function writeAcks(line: Line): void {
  const bytes = Buffer.allocUnsafe(line.acks.length * 4);
  line.acks.forEach((messageId, at) => {
    bytes.writeUInt16BE(0x4002, at * 4);
    bytes.writeUInt16BE(messageId, at * 4 + 2);
  });
  line.acks = [];
  if (bytes.length > 0 && line.client.connected) line.client.stream.write(bytes);
}

function publish(
  line: Line,
  topic: string,
  payload: string | Uint8Array,
  how: { qos: 0 | 1; retain: boolean },
): Promise<void> {
  if (line.closing)
    return Promise.reject(new Error(`Cannot publish to ${topic}: the connection to the broker is closed`));
  if (!line.up)
    return Promise.reject(
      new Error(`Cannot publish to ${topic}: there is no connection to the broker just now`),
    );
  const bytes = typeof payload === 'string' ? payload : Buffer.from(payload);
  return new Promise((resolve, reject) => {
    line.client.publish(topic, bytes, how, (error) => {
      if (error) reject(new Error(`Cannot publish to ${topic}: ${error.message}`, { cause: error }));
      else resolve();
    });
  });
}

/** The session outlives the connection: the broker repeats what was not acknowledged as soon as we are back. */
function drop(line: Line): void {
  if (line.closing || !line.client.connected) return;
  line.lastError = new Error(
    'messages could not be kept; the connection is made anew so that they come again',
  );
  line.client.stream.destroy();
}

function close(line: Line): Promise<void> {
  line.closing = true;
  clearTimeout(line.timer);
  const force = !line.client.connected;
  return new Promise((resolve) => line.client.end(force, () => resolve()));
}

function bytesOf(payload: string | Buffer): Uint8Array {
  return typeof payload === 'string' ? Buffer.from(payload) : payload;
}
