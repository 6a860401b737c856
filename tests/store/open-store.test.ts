/** The store's contract on a file, in memory, and where each answer takes a while. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openStore } from '../../src/store/open-store.ts';
import { storeSuite } from '../contract/store-suite.ts';
import { delayedStore } from '../support/delayed-store.ts';

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

storeSuite('SQLite in memory, each answer delayed', () => {
  const store = delayedStore(openStore(':memory:'), 20_261_130);
  return { store, end: () => store.close() };
});
