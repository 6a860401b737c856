/**
 * Nodes' credentials for the door of the built-in broker, looked up in memory. `stillwell node add`
 * and `node remove` write them from another process, so what is known grows old: a name that is not
 * known is looked for at once (a node that was just given its credential comes in without a
 * restart), and all are read again after two seconds. Removing a credential counts after that at
 * the latest; a thousand nodes that come back together cost one look, not a thousand.
 */
import type { CredentialRow, Store } from '../store/store.ts';

const MAX_AGE_MS = 2000;

export interface CredentialCache {
  /** By user name, no older than that. */
  find: (user: string) => Promise<CredentialRow | undefined>;
  /**
   * As it was read last: of a node that was let in, the credential that it came in with, or a newer
   * one.
   */
  lastRead: (user: string) => CredentialRow | undefined;
}

/** `now` is our clock. */
export function credentialCache(store: Pick<Store, 'credentials'>, now: () => number): CredentialCache {
  let rows = new Map<string, CredentialRow>();
  let readAtMs = Number.NEGATIVE_INFINITY;
  let reading: Promise<void> | undefined;
  const read = async (): Promise<void> => {
    const askedAtMs = now();
    rows = new Map((await store.credentials()).map((row) => [row.node, row]));
    readAtMs = askedAtMs;
  };
  return {
    async find(user) {
      const age = now() - readAtMs;
      // A clock that was set back does not make old rows young.
      if (!rows.has(user) || age > MAX_AGE_MS || age < 0)
        await (reading ??= read().finally(() => (reading = undefined)));
      return rows.get(user);
    },
    lastRead: (user) => rows.get(user),
  };
}
