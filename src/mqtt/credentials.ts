/**
 * A node's credential: a user name (its node name) and a password that is shown once and kept only
 * as a scrypt hash (RFC 7914). The password is 120 random bits, so the hash need not be slow to be
 * safe; it is kept cheap because a thousand nodes come back at the same moment after a power cut.
 * Hashing runs off the event loop.
 */
import { createHmac, randomBytes, scrypt, timingSafeEqual } from 'node:crypto';
import { isNodeName } from '../core/decode/topics.ts';
import { texts } from './texts.ts';

/** What the store keeps (structurally a CredentialRow of src/store/store.ts). */
interface Credential {
  node: string;
  /** scrypt: `salt:hash`, base64. */
  secret: string;
  createdMs: number;
  speaksFor: string[];
}

/** What the broker asks of a credential when a node comes. */
export interface NodeCredential {
  secret: string;
  speaksFor: readonly string[];
  /** May listen to everything under the root, and publish nothing. */
  listenOnly?: boolean;
}

/** 128 x 8 x 4096 B = 4 MiB and about 10 ms for each check. */
const SCRYPT = { N: 4096, r: 8, p: 1 } as const;
const SALT_BYTES = 16;
const HASH_BYTES = 32;

/**
 * Base32 (RFC 4648) without padding: capitals and 2-7, nothing that looks like anything else when
 * read out over a phone.
 */
const BASE32 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';
/** 24 letters of 5 bits = 120 bits, in six groups of four. */
const PASSWORD_CHARACTERS = 24;
const GROUP_CHARACTERS = 4;

export interface NewCredential {
  /** To be shown once; it cannot be found again from the row. */
  password: string;
  row: Credential;
}

/**
 * A new credential for a node, or for a gateway that speaks for further names. Throws where a name
 * is no node name. `createdMs` is the caller's clock.
 */
export async function makeCredential(
  node: string,
  options: { createdMs: number; speaksFor?: readonly string[] },
): Promise<NewCredential> {
  const speaksFor = [...new Set(options.speaksFor ?? [])];
  for (const name of [node, ...speaksFor]) {
    if (!isNodeName(name)) throw new Error(texts().badNodeName(name));
  }
  const password = makePassword();
  return {
    password,
    row: { node, secret: await hashSecret(password), createdMs: options.createdMs, speaksFor },
  };
}

export async function hashSecret(password: string): Promise<string> {
  const salt = randomBytes(SALT_BYTES);
  const hash = await derive(password, salt);
  return `${salt.toString('base64')}:${hash.toString('base64')}`;
}

/**
 * Whether the password is the one that this secret was made from. A secret that is no `salt:hash`
 * is never right.
 */
export async function verifySecret(secret: string, password: string): Promise<boolean> {
  const cut = secret.indexOf(':');
  if (cut < 1) return false;
  const hash = Buffer.from(secret.slice(cut + 1), 'base64');
  if (hash.length !== HASH_BYTES) return false;
  return timingSafeEqual(hash, await derive(password, Buffer.from(secret.slice(0, cut), 'base64')));
}

/**
 * Remembers, for this process only, which password was right for which secret, so that a node that
 * comes back costs a microsecond and not a scrypt. Holds a keyed digest (the key is made at start),
 * never the password.
 */
export function createVerifier(): (user: string, secret: string, password: string) => Promise<boolean> {
  const key = randomBytes(32);
  const verified = new Map<string, string>();
  return async function verify(user, secret, password) {
    const digest = createHmac('sha256', key).update(`${secret}\n${password}`).digest('base64');
    if (verified.get(user) === digest) return true;
    const ok = await verifySecret(secret, password);
    if (ok) verified.set(user, digest);
    return ok;
  };
}

/** People type dashes, blanks and small letters as they like. */
function normalizePassword(password: string): string {
  return password.replaceAll(/[\s-]/g, '').toUpperCase();
}

function derive(password: string, salt: Buffer): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    scrypt(normalizePassword(password), salt, HASH_BYTES, SCRYPT, (error, hash) =>
      error ? reject(error) : resolve(hash),
    );
  });
}

function makePassword(): string {
  const letters = Array.from(randomBytes(PASSWORD_CHARACTERS), (byte) => BASE32[byte & 31]).join('');
  return letters.match(new RegExp(`.{${GROUP_CHARACTERS}}`, 'g'))!.join('-');
}
