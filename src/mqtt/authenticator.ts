/**
 * The door of the built-in broker: who comes in, under which name, with which Will. A node gives
 * its own name and password; without them nobody comes in, but local clients where the demo allows
 * it. A client identifier is made the user's own (`user/id`), so that nobody can push another node
 * off by taking its identifier.
 */
import { Socket } from 'node:net';
import type { AuthenticateError, Client, ConnectPacket } from 'aedes';
import { mayPublish, type Session } from './access.ts';
import { createVerifier, type NodeCredential } from './credentials.ts';
import { texts } from './texts.ts';

export interface AuthenticatorOptions {
  root: string;
  /** Asked at each connect; undefined where no such node has a credential. */
  credential: (user: string) => Promise<NodeCredential | undefined>;
  /** Let clients of this computer in without a credential (the demo). */
  allowLocal: boolean;
}

/** What a client said of itself in CONNECT, before anything was checked. */
interface Claim {
  user?: string;
  willTopic?: string;
}

export interface Authenticator {
  handleConnect(
    client: Client,
    packet: ConnectPacket,
    done: (error: Error | null, go: boolean) => void,
  ): void;
  authenticate(
    client: Client,
    user: string | undefined,
    password: Buffer | undefined,
    done: AuthCallback,
  ): void;
  sessionOf(client: Client): Session | undefined;
  claimOf(client: Client): Claim | undefined;
}

type AuthCallback = (error: AuthenticateError | null, success: boolean | null) => void;

/** MQTT 3.1.1, table 3.1. */
const SERVER_UNAVAILABLE = 3;
const BAD_USER_OR_PASSWORD = 4;
const NOT_AUTHORIZED = 5;
/**
 * Checks waiting at once: 256 of 10 ms on two cores is 1.3 s; who comes then is asked to come
 * again.
 */
const MAX_PENDING_CHECKS = 256;
/**
 * A node sends every 60 s at the latest (contract, section 2), so 10 min without a word is a dead
 * connection, also for clients that asked for none or a longer time. Seconds.
 */
const MAX_KEEPALIVE_S = 600;

export function createAuthenticator(options: AuthenticatorOptions): Authenticator {
  const claims = new WeakMap<Client, Claim>();
  const sessions = new WeakMap<Client, Session>();
  const checkCredential = credentialCheck(options);

  async function respond(client: Client, { user, password }: LoginParams, done: AuthCallback): Promise<void> {
    let refused: LoginRefusal | undefined;
    try {
      refused = await admit(client, user, password);
    } catch (error) {
      refused = {
        refused: SERVER_UNAVAILABLE,
        reason: error instanceof Error ? error.message : String(error),
      };
    }
    done(refused === undefined ? null : toAuthError(refused), refused === undefined);
  }

  async function admit(
    client: Client,
    user: string | undefined,
    password: Buffer | undefined,
  ): Promise<LoginRefusal | undefined> {
    const session = await checkCredential(client, { user, password });
    if ('refused' in session) return session;
    const will = claims.get(client)?.willTopic;
    if (
      will !== undefined &&
      (session.listenOnly || mayPublish(options.root, session, will) !== 'presence')
    ) {
      return {
        refused: NOT_AUTHORIZED,
        reason: texts().willOfAnotherName(JSON.stringify(will.slice(0, 80))),
      };
    }
    if (!client.closed) sessions.set(client, session);
    return undefined;
  }

  return {
    handleConnect(client, packet, done) {
      claims.set(client, claimOf(packet));
      packet.clean = true;
      if (packet.clientId !== '') packet.clientId = `${packet.username ?? ''}/${packet.clientId}`;
      const requestedS = packet.keepalive ?? 0;
      packet.keepalive = requestedS === 0 ? MAX_KEEPALIVE_S : Math.min(requestedS, MAX_KEEPALIVE_S);
      done(null, true);
    },
    authenticate(client, user, password, done) {
      void respond(client, { user, password }, done);
    },
    sessionOf: (client) => sessions.get(client),
    claimOf: (client) => claims.get(client),
  };
}

/** Checks a login against the node's credential; its own count bounds how many wait at once. */
function credentialCheck(
  options: AuthenticatorOptions,
): (client: Client, params: LoginParams) => Promise<Session | LoginRefusal> {
  const verify = createVerifier();
  let pendingChecks = 0;
  return async (client, { user, password }) => {
    const local = options.allowLocal && isLocal(client);
    const credential = user === undefined ? undefined : await options.credential(user);
    if (user === undefined || credential === undefined) {
      if (local) return { names: 'any', listenOnly: false };
      return user === undefined
        ? { refused: NOT_AUTHORIZED, reason: texts().noUserName }
        : { refused: BAD_USER_OR_PASSWORD, reason: texts().noCredential };
    }
    if (pendingChecks >= MAX_PENDING_CHECKS)
      return { refused: SERVER_UNAVAILABLE, reason: texts().tooManyAtOnce };
    pendingChecks += 1;
    const right = await verify(user, credential.secret, password?.toString('utf8') ?? '').finally(
      () => (pendingChecks -= 1),
    );
    if (!right) return { refused: BAD_USER_OR_PASSWORD, reason: texts().wrongPassword };
    return {
      user,
      names: new Set([user, ...credential.speaksFor]),
      listenOnly: credential.listenOnly === true,
    };
  };
}

interface LoginParams {
  user: string | undefined;
  password: Buffer | undefined;
}

interface LoginRefusal {
  refused: number;
  reason: string;
}

function toAuthError({ refused, reason }: LoginRefusal): AuthenticateError {
  // The library declares the codes as a constant enum, which has no value at run time; these are
  // its numbers.
  // oxlint-disable-next-line typescript/no-unsafe-enum-assignment
  return Object.assign(new Error(reason), { returnCode: refused });
}

function claimOf(packet: ConnectPacket): Claim {
  return {
    ...(packet.username === undefined ? {} : { user: packet.username.slice(0, 80) }),
    ...(packet.will === undefined ? {} : { willTopic: packet.will.topic }),
  };
}

/** Where the client is, as the system says it; empty where the connection is no socket. */
function addressOf(client: Client): string {
  return client.conn instanceof Socket ? (client.conn.remoteAddress ?? '') : '';
}

function isLocal(client: Client): boolean {
  const address = addressOf(client);
  return address === '::1' || address.startsWith('127.') || address.startsWith('::ffff:127.');
}
