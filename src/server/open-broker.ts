/**
 * The broker that the settings name, opened for the live loop: the one in the box, with its
 * credentials and what it retains kept in the store, or an outside one. Where the one in the box
 * listens is written down for commands that run beside the server.
 */
import type { Broker, OnMessage } from '../mqtt/broker.ts';
import { openBuiltInBroker } from '../mqtt/built-in.ts';
import type { BrokerClientSettings } from '../mqtt/client-options.ts';
import { openBrokerClient } from '../mqtt/client.ts';
import type { Secrets } from '../config/secrets.ts';
import type { BrokerSettings, Settings } from '../config/settings.ts';
import type { Store } from '../store/store.ts';
import { credentialCache } from './credential-cache.ts';
import type { LiveServer } from './live/server.ts';
import { newRepeats } from './repeats.ts';
import { retainedMessages } from './retained-messages.ts';
import { texts } from './texts.ts';

interface BrokerOptions {
  settings: Settings;
  secrets: Secrets;
  now: () => number;
  log: (level: 'info' | 'warn' | 'error', sentence: string) => void;
  /** Let clients of this computer in without a credential. */
  allowLocal: boolean;
}

export interface OpenBroker {
  broker: Broker;
  /** Where the built-in broker listens; undefined for an outside one. */
  port: number | undefined;
}

type BuiltIn = Extract<BrokerSettings, { kind: 'built-in' }>;
type ExternalBroker = Extract<BrokerSettings, { kind: 'external' }>;

/**
 * Opens it. Rejects with one clear line where it can never work; an outside broker that cannot be
 * reached is tried again.
 */
export async function openBroker(
  options: BrokerOptions,
  store: Store,
  live: LiveServer,
): Promise<OpenBroker> {
  const { broker } = options.settings;
  const credential = credentialCache(store, options.now);
  const onMessage: OnMessage = (topic, payload, how, nodeUser) =>
    live.receive({
      topic,
      payload,
      retained: how.retained,
      ...(how.contentType !== undefined && { contentType: how.contentType }),
      ...(how.acknowledge && { acknowledge: how.acknowledge }),
      ...(nodeUser !== undefined && { given: () => credential.lastRead(nodeUser)?.speaksFor ?? [] }),
    });
  return broker.kind === 'built-in'
    ? openBuiltIn(options, broker, { store, onMessage, credential })
    : openExternal(options, broker, onMessage);
}

interface Ours {
  store: Store;
  onMessage: OnMessage;
  credential: ReturnType<typeof credentialCache>;
}

async function openBuiltIn(
  options: BrokerOptions,
  { host, port }: BuiltIn,
  { store, onMessage, credential }: Ours,
): Promise<OpenBroker> {
  const { root, notices } = options.settings;
  const write = (sentence: string): void => options.log('warn', sentence);
  const retained = retainedMessages(store, { root, onProblem: write });
  const refusals = newRepeats({ write, now: options.now });
  const broker = await openBuiltInBroker({
    host,
    port,
    root,
    onMessage,
    acknowledge: 'after-commit',
    allowLocal: options.allowLocal,
    credential: credential.find,
    retained: retained,
    noticeTopics: notices.flatMap(({ mqtt }) => (mqtt ? [mqtt.topic] : [])),
    onProblem: (sentence, from) => refusals.tell(sentence, from),
  });
  const counting = setInterval(() => refusals.due(), LOOK_AT_COUNTS_MS);
  counting.unref();
  await store.commit([
    { change: 'setting', key: BUILT_IN_ADDRESS_KEY, value: JSON.stringify({ host, port: broker.port }) },
  ]);
  return {
    port: broker.port,
    broker: {
      publish: (topic, payload, how) => broker.publish(topic, payload, how),
      connectedNodes: () => broker.connectedNodes(),
      dropConnections: () => broker.dropConnections(),
      close: async () => {
        clearInterval(counting);
        await broker.close();
        refusals.end();
        await retained.flush();
      },
    },
  };
}

async function openExternal(
  options: BrokerOptions,
  settings: ExternalBroker,
  onMessage: OnMessage,
): Promise<OpenBroker> {
  const broker = await openBrokerClient({
    ...externalClientSettings(settings, options.secrets),
    root: options.settings.root,
    onMessage,
    acknowledge: 'after-commit',
    onState: (state) =>
      state.connected
        ? options.log('info', texts().connectedTo(settings.url))
        : options.log('warn', state.problem),
  });
  return { broker, port: undefined };
}

/** How to reach the outside broker of the settings. */
export function externalClientSettings(settings: ExternalBroker, secrets: Secrets): BrokerClientSettings {
  const { url, clientId, protocolVersion, username, caFile, certFile, keyFile } = settings;
  const password = secrets.brokerPassword?.();
  return {
    url,
    clientId,
    version: protocolVersion,
    ...(username !== undefined && { user: username }),
    ...(password !== undefined && { password }),
    ...(caFile !== undefined && { caFile }),
    ...(certFile !== undefined && { certFile }),
    ...(keyFile !== undefined && { keyFile }),
  };
}

/** A count is written this long after its minute at the latest. */
const LOOK_AT_COUNTS_MS = 10_000;
const BUILT_IN_ADDRESS_KEY = 'built-in-broker';
/**
 * Addresses that stand for all of a computer's own: it is reached from here by its loopback
 * address.
 */
const LOOPBACK_OF_WILDCARD: Record<string, string> = { '0.0.0.0': '127.0.0.1', '::': '[::1]' };

/**
 * Where the built-in broker of this store was opened last, for a program on the same computer;
 * undefined where it never was.
 */
export async function builtInUrl(store: Pick<Store, 'getValue'>): Promise<string | undefined> {
  const stored = await store.getValue(BUILT_IN_ADDRESS_KEY);
  if (stored === undefined) return undefined;
  const { host, port } = JSON.parse(stored) as { host: string; port: number };
  return `mqtt://${LOOPBACK_OF_WILDCARD[host] ?? (host.includes(':') ? `[${host}]` : host)}:${port}`;
}
