/** The store's contract on a file and in memory. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openStore } from '../../src/store/open-store.ts';
import { storeSuite } from '../contract/store-suite.ts';

storeSuite('SQLite in a file', () => {
  const folder = mkdtempSync(join(tmpdir(), 'store-'));
  const path = join(folder, 'wells.db');
  let store = openStore(path);
  return {
    store,
    reopen: async () => {
      await store.close();
      store = openStore(path);
      return store;
    },
    end: async () => {
      await store.close();
      rmSync(folder, { recursive: true });
    },
  };
});

storeSuite('SQLite in memory', () => {
  const store = openStore(':memory:');
  return { store, end: () => store.close() };
});
