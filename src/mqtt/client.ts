/**
 * The line to any outside MQTT broker. The session outlives the connection, and with `after-commit`
 * a message is acknowledged only after our commit, so that the broker holds and repeats what we had
 * not kept. Lost connections are tried again by ourselves, after 1 s, 2 s, 4 s … 60 s, each
 * shortened by up to half at random so that many servers do not come back in step.
 */
import mqtt, { type IPublishPacket, type MqttClient } from 'mqtt';
import { MINUTE_MS } from '../../shared/units/duration.ts';
import { NODE_TOPIC_KINDS } from '../core/decode/topics.ts';
import { type AckMode, type MessageInfo, type Broker, type OnMessage } from './broker.ts';
import { clientOptions, type BrokerClientSettings } from './client-options.ts';
import { brokerProblem } from './problem.ts';
import { texts } from './texts.ts';

export interface BrokerClientOptions extends BrokerClientSettings {
  root: string;
  onMessage: OnMessage;
  acknowledge?: AckMode;
  /** Name of a shared subscription: several servers that share the wells. */
  shareName?: string;
  /** Told of each change: connected and listening, or not, with one sentence on what to do. */
  onState?: (state: { connected: true } | { connected: false; problem: string }) => void;
  /**
   * What the first failure does: `retry` (default) opens anyway and goes on trying, `reject`
   * rejects with the sentence.
   */
  firstFailure?: 'retry' | 'reject';
}

const FIRST_WAIT_MS = 1000;
const MAX_WAIT_MS = MINUTE_MS;

/** How long to wait before the try after `failures` in a row; `random` in [0, 1). */
export function reconnectDelayMs(failures: number, random: number): number {
  const full = Math.min(MAX_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(failures - 1, 16));
  return Math.max(FIRST_WAIT_MS / 2, Math.round(full * (1 - random / 2)));
}

interface Connection {
  options: BrokerClientOptions;
  client: MqttClient;
  closing: boolean;
  failures: number;
  /** Connected and subscribed. */
  ready: boolean;
  lastError: unknown;
  timer?: NodeJS.Timeout;
  /** Acknowledgements of this turn, and the connection they belong to. */
  acks: number[];
  resolveFirst: (error?: Error) => void;
}

/**
 * Connects and subscribes to the four upper topics of all nodes. Resolves when that is done, or at
 * the first failure (which `onState` tells) while trying goes on. Rejects on settings that can
 * never work and, where asked to, on the first failure.
 */
export async function openBrokerClient(options: BrokerClientOptions): Promise<Broker> {
  const client = mqtt.connect(options.url, { ...clientOptions(options), manualConnect: true });
  let resolveFirst: Connection['resolveFirst'] = () => undefined;
  const first = new Promise<Error | undefined>((resolve) => (resolveFirst = resolve));
  const connection: Connection = {
    options,
    client,
    closing: false,
    failures: 0,
    ready: false,
    lastError: undefined,
    acks: [],
    resolveFirst,
  };
  client.handleMessage = (packet, done) => handleMessage(connection, packet, done);
  client.on('connect', () => subscribe(connection));
  client.on('error', (error) => (connection.lastError = error));
  client.on('close', () => handleClose(connection));
  client.connect();
  const failed = await first;
  if (failed !== undefined && options.firstFailure === 'reject') {
    await close(connection);
    throw failed;
  }
  return {
    publish: (topic, payload, options) => publish(connection, topic, payload, options),
    close: () => close(connection),
    dropConnections: () => dropConnection(connection),
    connectedNodes: () => [],
  };
}

function subscribe(connection: Connection): void {
  const { root, shareName } = connection.options;
  const prefix = shareName === undefined ? '' : `$share/${shareName}/`;
  const filters = NODE_TOPIC_KINDS.map((last) => `${prefix}${root}/+/${last}`);
  connection.client.subscribe(filters, { qos: 1 }, (error) => {
    if (connection.closing) return;
    if (error !== null && error !== undefined) {
      connection.lastError = connection.client.connected ? { code: 128 } : error;
      connection.client.stream.destroy();
      return;
    }
    connection.failures = 0;
    connection.ready = true;
    connection.lastError = undefined;
    connection.options.onState?.({ connected: true });
    connection.resolveFirst();
  });
}

/** The connection is gone, or never came: say so and try again later. */
function handleClose(connection: Connection): void {
  connection.ready = false;
  connection.acks = [];
  if (connection.closing || connection.timer !== undefined) return;
  connection.failures += 1;
  const reason = connection.lastError ?? new Error(texts().connectionLost);
  const problem = brokerProblem(reason, connection.options.url);
  connection.lastError = undefined;
  connection.options.onState?.({ connected: false, problem });
  connection.timer = setTimeout(
    () => {
      delete connection.timer;
      if (!connection.closing) connection.client.reconnect();
    },
    reconnectDelayMs(connection.failures, Math.random()),
  );
  connection.resolveFirst(new Error(problem, { cause: reason }));
}

/**
 * One message. The library sends the acknowledgement when `done` is called without error, and takes
 * the next message only then; to let many messages wait for one commit, `done` is called with an
 * error (which holds the acknowledgement back and does nothing else) and the acknowledgement is
 * written by ourselves.
 */
function handleMessage(connection: Connection, packet: IPublishPacket, done: (error?: Error) => void): void {
  const info: MessageInfo = { retained: packet.retain, qos: packet.qos };
  const contentType = packet.properties?.contentType;
  if (contentType !== undefined) info.contentType = contentType;
  const ackLater =
    connection.options.acknowledge === 'after-commit' && packet.qos === 1 && packet.messageId !== undefined;
  if (ackLater) info.acknowledge = createAck(connection, packet.messageId!);
  else if (connection.options.acknowledge === 'after-commit') info.acknowledge = () => undefined;
  if (!connection.closing) connection.options.onMessage(packet.topic, bytesOf(packet.payload), info);
  done(ackLater ? new Error('acknowledged later') : undefined);
}

function createAck(connection: Connection, messageId: number): () => void {
  const stream = connection.client.stream;
  let called = false;
  return () => {
    if (called || connection.client.stream !== stream || !connection.client.connected) return;
    called = true;
    if (connection.acks.length === 0) queueMicrotask(() => writeAcks(connection));
    connection.acks.push(messageId);
  };
}

/**
 * PUBACK in both versions: 0x40, length 2, packet identifier (MQTT 3.1.1 section 3.4; MQTT 5
 * section 3.4.2.1 lets the reason code be left out).
 */
function writeAcks(connection: Connection): void {
  const bytes = Buffer.allocUnsafe(connection.acks.length * 4);
  connection.acks.forEach((messageId, at) => {
    bytes.writeUInt16BE(0x4002, at * 4);
    bytes.writeUInt16BE(messageId, at * 4 + 2);
  });
  connection.acks = [];
  if (bytes.length > 0 && connection.client.connected) connection.client.stream.write(bytes);
}

function publish(
  connection: Connection,
  topic: string,
  payload: string | Uint8Array,
  options: { qos: 0 | 1; retain: boolean },
): Promise<void> {
  const { cannotPublish, connectionClosed, noConnection } = texts();
  const fail = (reason: string, cause?: Error): Error =>
    new Error(cannotPublish({ topic, reason }), cause && { cause });
  if (connection.closing) return Promise.reject(fail(connectionClosed));
  if (!connection.ready) return Promise.reject(fail(noConnection));
  const bytes = typeof payload === 'string' ? payload : Buffer.from(payload);
  return new Promise((resolve, reject) => {
    connection.client.publish(topic, bytes, options, (error) => {
      if (error) reject(fail(error.message, error));
      else resolve();
    });
  });
}

/**
 * The session outlives the connection: the broker repeats what was not acknowledged as soon as we
 * are back.
 */
function dropConnection(connection: Connection): void {
  if (connection.closing || !connection.client.connected) return;
  connection.lastError = new Error(texts().messagesNotKept);
  connection.client.stream.destroy();
}

function close(connection: Connection): Promise<void> {
  connection.closing = true;
  clearTimeout(connection.timer);
  const force = !connection.client.connected;
  return new Promise((resolve) => connection.client.end(force, () => resolve()));
}

function bytesOf(payload: string | Buffer): Uint8Array {
  return typeof payload === 'string' ? Buffer.from(payload) : payload;
}
