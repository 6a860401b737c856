/**
 * The broker that is in the box: nodes connect straight to this server, each with its own user name
 * and password, and reach their own topics alone. Messages are taken where the broker library asks
 * whether they are allowed, before it forwards anything: there is no client in between, and with
 * `after-commit` the node's acknowledgement waits for our commit.
 *
 * It speaks MQTT 3.1 and 3.1.1 over TCP (the library, aedes 1.2, refuses MQTT 5 with return code 1,
 * "unacceptable protocol version"; nodes that need MQTT 5 want an outside broker). It keeps no
 * sessions: every connection starts clean, and says so in CONNACK; `kept` is retained and a node
 * says `hello` after each connect, so nothing is lost by it.
 */
import { createServer, type Socket } from 'node:net';
import { Aedes, type AedesPublishPacket, type Client } from 'aedes';
import { MINUTE_MS } from '../../shared/units/duration.ts';
import { mayPublish, maySubscribe, type Session } from './access.ts';
import type { AckMode, MessageInfo, Broker, OnMessage, NodeTopic } from './broker.ts';
import { newFrameMeter, findOversizedPacket } from './frame-meter.ts';
import { listen } from './listen.ts';
import { createAuthenticator, type Authenticator, type AuthenticatorOptions } from './authenticator.ts';
import { texts } from './texts.ts';

/**
 * Retained messages that outlive the process. `save` is called synchronously; with `null` it
 * forgets the topic.
 */
interface RetainedStore {
  load: () => Promise<Iterable<{ topic: string; payload: Uint8Array; qos: 0 | 1 | 2 }>>;
  save: (topic: string, payload: Uint8Array | null, qos: 0 | 1 | 2) => void;
}

export interface BuiltInOptions extends Omit<AuthenticatorOptions, 'root'> {
  host: string;
  /** 0: any free one; see `BuiltInBroker.port`. */
  port: number;
  /** First topic level(s), without a slash at the end. */
  root: string;
  onMessage: OnMessage;
  acknowledge?: AckMode;
  retained?: RetainedStore;
  /**
   * Topics that notices go to: whoever was let in may listen to them (a siren, a light, with a
   * credential of its own).
   */
  noticeTopics?: readonly string[];
  /**
   * One sentence on a client that was turned away or dropped, and its address; the address is empty
   * where nobody knows it.
   */
  onProblem?: (sentence: string, from: string) => void;
  maxConnections?: number;
}

export interface BuiltInBroker extends Broker {
  port: number;
}

/**
 * A pack is 128 KiB at most and must arrive to be refused by name; twice that is nobody's mistake,
 * and the connection ends.
 */
export const MAX_PACKET_BYTES = 256 * 1024;
/** About 30 KiB each: 10,000 are 300 MiB. A farm has tens. */
const MAX_CONNECTIONS = 10_000;
/** A connection that does not say CONNECT by then is dropped. */
const CONNECT_TIMEOUT_MS = 10_000;
/**
 * A client that does not read for so long is dropped: until then it can hold up what goes to all.
 */
const DRAIN_TIMEOUT_MS = 10_000;
/**
 * Deliveries to listeners under way; one that reads slowly fills 1,000 of 1 KiB in its 10 s before
 * the others wait.
 */
const MAX_CONCURRENT_DELIVERIES = 1000;
/** Nodes send QoS 1; a few at QoS 2 are borne. */
const MAX_QOS2_IN_FLIGHT = 20;
/** Client identifiers get the user name in front (40), a slash, and are 200 at most. */
const MAX_CLIENT_ID_CHARACTERS = 241;

interface BuiltInState {
  options: BuiltInOptions;
  authenticator: Authenticator;
  reportProblem: (sentence: string, from: string) => void;
  /**
   * By connection, as it was when it came: of one that is gone the system says nothing any more.
   */
  addresses: WeakMap<object, string>;
  connected: Set<Client>;
  closing: boolean;
}

/** Opens the broker. Rejects with one clear sentence where the port cannot be had. */
export async function openBuiltInBroker(options: BuiltInOptions): Promise<BuiltInBroker> {
  const reportProblem = options.onProblem ?? (() => undefined);
  const state: BuiltInState = {
    options,
    authenticator: createAuthenticator(options),
    reportProblem,
    addresses: new WeakMap(),
    connected: new Set(),
    closing: false,
  };
  const aedes = await Aedes.createBroker(handlers(state));
  aedes.on('clientReady', (client) => state.connected.add(client));
  aedes.on('clientDisconnect', (client) => state.connected.delete(client));
  aedes.on('clientError', (client, error) =>
    state.reportProblem(
      texts().dropped({ client: describeClient(state, client), reason: error.message }),
      addressOf(state, client.conn),
    ),
  );
  aedes.on('connectionError', (client, error) =>
    state.reportProblem(
      texts().turnedAway({ client: describeClient(state, client), reason: error.message }),
      addressOf(state, client.conn),
    ),
  );
  (aedes as NodeJS.EventEmitter).on('error', (error: Error) =>
    state.reportProblem(texts().builtInReports(error.message), ''),
  );
  const server = createServer((socket) => handleSocket(state, aedes, socket));
  server.maxConnections = options.maxConnections ?? MAX_CONNECTIONS;
  try {
    await restoreRetained(state, aedes);
    const port = await listen(server, options);
    return buildBroker(state, aedes, { port, stop: () => new Promise((done) => server.close(() => done())) });
  } catch (error) {
    await new Promise<void>((done) => aedes.close(done));
    throw error;
  }
}

function handlers(state: BuiltInState): ConstructorParameters<typeof Aedes>[0] {
  const { options, authenticator } = state;
  return {
    concurrency: MAX_CONCURRENT_DELIVERIES,
    connectTimeout: CONNECT_TIMEOUT_MS,
    drainTimeout: DRAIN_TIMEOUT_MS,
    maxInflightInbound: MAX_QOS2_IN_FLIGHT,
    maxClientsIdLength: MAX_CLIENT_ID_CHARACTERS,
    maxTopicLevels: 12,
    preConnect: (client, packet, done) => authenticator.handleConnect(client, packet, done),
    authenticate: (client, user, password, done) => authenticator.authenticate(client, user, password, done),
    authorizePublish: (client, packet, done) => handlePublish(state, client, packet, done),
    authorizeSubscribe(client, subscription, done) {
      const session = authenticator.sessionOf(client);
      const notices = options.noticeTopics?.includes(subscription.topic) === true;
      const may =
        session !== undefined && (notices || maySubscribe(options.root, session, subscription.topic));
      if (!may)
        state.reportProblem(
          texts().refused({
            client: describeClient(state, client),
            reason: texts().mayNotListenTo(quoteTopic(subscription.topic)),
          }),
          addressOf(state, client.conn),
        );
      done(null, may ? subscription : null);
    },
  };
}

/** One socket: watched for packets that are too large, then handed to the library. */
function handleSocket(state: BuiltInState, aedes: Aedes, socket: Socket): void {
  const address = (socket.remoteAddress ?? '').replace(/^::ffff:/, '');
  state.addresses.set(socket, address);
  socket.setNoDelay(true);
  socket.setKeepAlive(true, MINUTE_MS);
  const meter = newFrameMeter();
  const read = socket.read.bind(socket);
  socket.read = (size?: number) => {
    const bytes: Buffer | null = read(size);
    const tooLarge = bytes === null ? 0 : findOversizedPacket(meter, bytes, MAX_PACKET_BYTES);
    if (tooLarge === 0) return bytes;
    state.reportProblem(
      texts().dropped({
        client: texts().client({ user: undefined, address: address || '?' }),
        reason: texts().packetTooLarge({ bytes: tooLarge, maxBytes: MAX_PACKET_BYTES }),
      }),
      address,
    );
    socket.destroy();
    return null;
  };
  aedes.handle(socket);
}

type AllowPublish = (error?: Error | null) => void;

/**
 * Asked for every message, Wills included. Calling `done` lets the library acknowledge and forward
 * it.
 */
function handlePublish(
  state: BuiltInState,
  client: Client | null,
  packet: PublishLike,
  done: AllowPublish,
): void {
  if (state.closing) return done(new Error('closing'));
  const session = client === null ? undefined : state.authenticator.sessionOf(client);
  const kind =
    session === undefined || session.listenOnly
      ? undefined
      : mayPublish(state.options.root, session, packet.topic);
  if (session === undefined || kind === undefined)
    return done(new Error(texts().mayNotPublishTo(quoteTopic(packet.topic))));
  const payload = bytesOf(packet.payload);
  const info: MessageInfo = { retained: storeRetained(state, packet, kind, payload), qos: packet.qos };
  const contentType = packet.properties?.contentType;
  if (contentType !== undefined) info.contentType = contentType;
  if (state.options.acknowledge === 'after-commit') info.acknowledge = ackOnce(done);
  state.options.onMessage(packet.topic, payload, info, session.user);
  if (info.acknowledge === undefined) done(null);
}

/** What we need of the library's publish packets, Wills among them. */
type PublishLike = Pick<AedesPublishPacket, 'topic' | 'payload' | 'qos' | 'retain'> & {
  properties?: { contentType?: string };
};

/**
 * `hello` and `presence` are retained; `readings` and `start` never are: the flag is taken off
 * before the library sees it, and the message goes on as retained, so that it is refused by that
 * name.
 */
function storeRetained(
  state: BuiltInState,
  packet: PublishLike,
  kind: NodeTopic,
  payload: Uint8Array,
): boolean {
  if (!packet.retain) return false;
  if (kind === 'hello' || kind === 'presence') {
    state.options.retained?.save(packet.topic, payload.length === 0 ? null : payload, packet.qos);
    return false;
  }
  packet.retain = false;
  return true;
}

/** Retained messages of the last run: first back into the broker, then told as retained copies. */
async function restoreRetained(state: BuiltInState, aedes: Aedes): Promise<void> {
  const { root, onMessage, retained } = state.options;
  const everybody: Session = { names: 'any', listenOnly: false };
  for (const { topic, payload, qos } of (await retained?.load()) ?? []) {
    await publishToClients(aedes, topic, payload, { qos, retain: true });
    if (mayPublish(root, everybody, topic) !== undefined) onMessage(topic, payload, { retained: true, qos });
  }
}

function publishToClients(
  aedes: Aedes,
  topic: string,
  payload: string | Uint8Array,
  options: { qos: 0 | 1 | 2; retain: boolean },
): Promise<void> {
  const bytes =
    typeof payload === 'string'
      ? Buffer.from(payload)
      : Buffer.from(payload.buffer, payload.byteOffset, payload.length);
  return new Promise((resolve, reject) => {
    aedes.publish({ cmd: 'publish', topic, payload: bytes, dup: false, ...options }, (error) =>
      error ? reject(error) : resolve(),
    );
  });
}

function buildBroker(
  state: BuiltInState,
  aedes: Aedes,
  listener: { port: number; stop: () => Promise<void> },
): BuiltInBroker {
  let closed: Promise<void> | undefined;
  return {
    port: listener.port,
    async publish(topic, payload, options) {
      if (state.closing) throw new Error(texts().cannotPublish({ topic, reason: texts().builtInClosed }));
      if (options.retain)
        state.options.retained?.save(topic, payload.length === 0 ? null : Buffer.from(payload), options.qos);
      await publishToClients(aedes, topic, payload, options);
    },
    close() {
      state.closing = true;
      closed ??= Promise.all([listener.stop(), new Promise<void>((done) => aedes.close(done))]).then(
        () => undefined,
      );
      return closed;
    },
    dropConnections: () => {
      for (const client of state.connected) client.conn.destroy();
    },
    connectedNodes: () => connectedUsers(state),
  };
}

function connectedUsers(state: BuiltInState): string[] {
  const users = new Set<string>();
  for (const client of state.connected) {
    const user = state.authenticator.sessionOf(client)?.user;
    if (user !== undefined) users.add(user);
  }
  return [...users].sort();
}

function describeClient(state: BuiltInState, client: Client): string {
  const user = state.authenticator.sessionOf(client)?.user ?? state.authenticator.claimOf(client)?.user;
  return texts().client({ user, address: addressOf(state, client.conn) || '?' });
}

function addressOf(line: BuiltInState, connection: object): string {
  return line.addresses.get(connection) ?? '';
}

function bytesOf(payload: string | Uint8Array): Uint8Array {
  return typeof payload === 'string' ? Buffer.from(payload) : payload;
}

/** Topics come from outside: short and on one line. */
function quoteTopic(topic: string): string {
  return JSON.stringify(topic.length > 80 ? `${topic.slice(0, 80)}…` : topic);
}

function ackOnce(done: AllowPublish): () => void {
  let called = false;
  return () => {
    if (called) return;
    called = true;
    done(null);
  };
}
