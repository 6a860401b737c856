/**
 * Settings of an outside broker, and how the MQTT library is told of them. Certificate files are
 * read here, once, at start.
 */
import { readFileSync } from 'node:fs';
import type { IClientOptions } from 'mqtt';
import { DAY_S } from '../../shared/units/duration.ts';
import { texts } from './texts.ts';

export interface BrokerClientSettings {
  /** mqtt:// mqtts:// ws:// wss://, with port and path where they are not the usual ones. */
  url: string;
  /** 4 is MQTT 3.1.1, 5 is MQTT 5. */
  version: 4 | 5;
  /** The same after each restart: the broker holds our session under it. */
  clientId: string;
  user?: string;
  password?: string;
  caFile?: string;
  certFile?: string;
  keyFile?: string;
  /**
   * For a command that listens or sends for a while: the broker holds nothing for it once it has
   * gone.
   */
  temporary?: boolean;
}

const PROTOCOLS = ['mqtt:', 'mqtts:', 'ws:', 'wss:'];
/**
 * The broker holds what comes while we are away for so long (MQTT 5); 3.1.1 brokers have a setting
 * of their own.
 */
const SESSION_EXPIRY_S = 7 * DAY_S;
/**
 * Messages on their way to us at once: at 20,000 a second and a commit each 20 ms, 400 wait;
 * brokers give fewer where they must.
 */
const RECEIVE_MAXIMUM = 1000;
const KEEPALIVE_S = 60;
/** A broker that takes a connection and says nothing. */
const CONNECT_TIMEOUT_MS = 20_000;

/** Throws `Cannot use the broker …` where an address or a file is no good. */
export function clientOptions(settings: BrokerClientSettings): IClientOptions {
  checkAddress(settings.url);
  if ((settings.certFile === undefined) !== (settings.keyFile === undefined)) {
    throw new Error(texts().certificateWithoutKey);
  }
  const { files } = texts();
  return {
    protocolVersion: settings.version,
    clientId: settings.clientId,
    clean: settings.temporary === true,
    ...(settings.version === 5
      ? {
          properties: {
            receiveMaximum: RECEIVE_MAXIMUM,
            ...(settings.temporary === true ? {} : { sessionExpiryInterval: SESSION_EXPIRY_S }),
          },
        }
      : {}),
    keepalive: KEEPALIVE_S,
    connectTimeout: CONNECT_TIMEOUT_MS,
    reconnectPeriod: 0,
    resubscribe: false,
    timerVariant: 'native',
    ...(settings.user === undefined ? {} : { username: settings.user }),
    ...(settings.password === undefined ? {} : { password: settings.password }),
    ...(settings.caFile === undefined ? {} : { ca: readFileOrThrow(files.ca, settings.caFile) }),
    ...(settings.certFile === undefined
      ? {}
      : { cert: readFileOrThrow(files.certificate, settings.certFile) }),
    ...(settings.keyFile === undefined ? {} : { key: readFileOrThrow(files.key, settings.keyFile) }),
  };
}

function checkAddress(url: string): void {
  const protocol = URL.canParse(url) ? new URL(url).protocol : undefined;
  if (protocol === undefined || !PROTOCOLS.includes(protocol)) {
    throw new Error(texts().badAddress(url));
  }
}

function readFileOrThrow(what: string, path: string): Buffer {
  try {
    return readFileSync(path);
  } catch (error) {
    const errorMessage = error instanceof Error ? error.message : String(error);
    throw new Error(texts().cannotReadFile({ what, errorMessage }), { cause: error });
  }
}
