/**
 * Nodes' credentials for the door of the built-in broker, looked up in memory. `stillwell node add` and `node remove` write them
 * from another process, so what is known grows old: a name that is not known is looked for at once (a node that was just given
 * its credential comes in without a restart), and all are read again after two seconds. Removing a credential counts after
 * that at the latest; a thousand nodes that come back together cost one look, not a thousand.
 */
import type { CredentialRow, Store } from '../store/store.ts';

const MAX_AGE_MS = 2000;

/** Answers by user name. `now` is our clock. */
export function credentialCache(
  store: Pick<Store, 'credentials'>,
  now: () => number,
): (user: string) => CredentialRow | undefined {
  let rows = new Map<string, CredentialRow>();
  let readAtMs = Number.NEGATIVE_INFINITY;
  return (user) => {
    const age = now() - readAtMs;
    // A clock that was set back does not make old rows young.
    if (!rows.has(user) || age > MAX_AGE_MS || age < 0) {
      rows = new Map(store.credentials().map((row) => [row.node, row]));
      readAtMs = now();
    }
    return rows.get(user);
  };
}
