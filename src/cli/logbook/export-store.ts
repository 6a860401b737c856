/**
 * The data folder for a command that exports or imports a well where no server runs, or beside one.
 */
import { randomUUID } from 'node:crypto';
import { join } from 'node:path';
import { openDocuments, type DocumentFiles } from '../../store/document-files.ts';
import { openStore } from '../../store/open-store.ts';
import { makePrivateFolder } from '../../store/private-files.ts';
import type { Store } from '../../store/store.ts';
import type { WellExports } from '../../http/deps.ts';
import { openWellExports } from '../../server/export/well-exports.ts';
import { DOCUMENTS_FOLDER, STORE_FILE } from '../../server/server.ts';

export async function withStore<T>(
  dataDir: string,
  as: 'server' | 'secondary',
  work: (wellExports: WellExports, store: Store) => T | Promise<T>,
): Promise<T> {
  makePrivateFolder(dataDir);
  const store = openStore(join(dataDir, STORE_FILE), { role: as });
  try {
    const documents = openDocuments(join(dataDir, DOCUMENTS_FOLDER));
    return await work(offlineExports(store, documents), store);
  } finally {
    await store.close();
  }
}

/**
 * Where no engine runs: the next start finds what was committed, and a card is an act that it meets
 * then.
 */
function offlineExports(store: Store, documents: DocumentFiles): WellExports {
  return openWellExports({
    store,
    documents,
    now: Date.now,
    commit: async (plan) => {
      await store.commit(await plan());
      return undefined;
    },
    async writeCard(card, by) {
      const row = {
        id: randomUUID(),
        atMs: Date.now(),
        ...(by !== undefined && { by }),
        kind: 'card-changed',
      };
      const body = { kind: 'card-changed', card };
      await store.commit([{ change: 'act', row: { ...row, well: String(card['well']), body } }]);
    },
  });
}
