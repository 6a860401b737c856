/**
 * `stillwell node forget`: nodes that are no more, out of the server that runs, or out of the data
 * folder where none does.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { openStore } from '../store/open-store.ts';
import { StoreError } from '../store/store-error.ts';
import type { Store } from '../store/store.ts';
import { planForget } from '../server/live/forget.ts';
import { STORE_FILE } from '../server/server.ts';
import { EXIT, UsageError, type Io } from './command.ts';
import { ApiError, serverApi } from './server-api.ts';
import { texts } from './texts.ts';

interface Place {
  dataDir: string;
  /** Asked for by name. */
  server?: string;
  /** By the settings. */
  defaultServer: string;
}

/** Returns why the node stays. */
type Forget = (node: string) => Promise<string | undefined>;

/** Each by itself: one that stays keeps no other. */
export async function forgetNodes(names: readonly string[], io: Io, place: Place): Promise<number> {
  const store = place.server === undefined ? storeUnlessServed(place.dataDir) : undefined;
  try {
    const forget = store ? inStore(store) : overApi(place.server ?? place.defaultServer);
    let exit: number = EXIT.ok;
    for (const node of names) {
      const why = await forget(node);
      if (why === undefined) io.out(texts().isForgotten(node));
      else {
        io.err(why);
        exit = EXIT.usage;
      }
    }
    return exit;
  } finally {
    await store?.close();
  }
}

/** A server that runs holds its nodes in memory: it alone forgets one. */
function storeUnlessServed(dataDir: string): Store | undefined {
  const path = join(dataDir, STORE_FILE);
  if (!existsSync(path)) throw new UsageError(texts().thereIsNoDatabase(dataDir));
  try {
    return openStore(path);
  } catch (error) {
    if (error instanceof StoreError && error.fault === 'in-use') return undefined;
    throw error;
  }
}

function inStore(store: Store): Forget {
  return async (node) => {
    const plan = await planForget(store, node, Date.now());
    if ('problem' in plan) return plan.problem;
    await store.commit(plan.changes);
    return undefined;
  };
}

function overApi(server: string): Forget {
  const api = serverApi(server);
  return async (node) => {
    try {
      await api.post('forget', { node }, {});
      return undefined;
    } catch (error) {
      if (error instanceof ApiError) return error.message;
      throw error;
    }
  };
}
