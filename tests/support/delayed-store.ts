/**
 * A store that answers each call after a drawn delay, as a database on another computer does: it
 * finds whoever relied on an answer at once. Queries under way together answer in a drawn order.
 * Commits take effect in the order in which they were called, a while after the call and a while
 * before their promise resolves. Whoever changes what is in a list that is still to be committed is
 * told so.
 */
import { serialize } from 'node:v8';
import { seeded } from '../../src/lab/model/random.ts';
import type { Change, Store } from '../../src/store/store.ts';
import { newMutex } from '../../src/mutex.ts';

/** As they are before a test takes the clock into its hands. */
const { setImmediate, setTimeout } = globalThis;
const MAX_DELAY_MS = 3;

export function delayedStore(store: Store, seed: number): Store {
  const random = seeded(seed).next;
  const commits = newMutex();
  const pending = new Set<Promise<unknown>>();

  /**
   * Half of the answers come in the next turn of the event loop, the others some milliseconds
   * later.
   */
  const pause = (): Promise<void> =>
    new Promise((resolve) => {
      if (random() < 0.5) setImmediate(resolve);
      else setTimeout(resolve, random() * MAX_DELAY_MS);
    });
  const delay = async <T>(ask: () => Promise<T>): Promise<T> => {
    await pause();
    const answer = await ask();
    await pause();
    return answer;
  };
  const track = <T>(answer: Promise<T>): Promise<T> => {
    const settled = answer.catch(() => undefined).finally(() => pending.delete(settled));
    pending.add(settled);
    return answer;
  };

  const commit = (changes: readonly Change[]): Promise<void> => {
    const asCalled = serialize(changes);
    return commits.run(() =>
      delay(() => {
        if (!serialize(changes).equals(asCalled))
          throw new Error('Cannot commit: somebody changed the list while it waited');
        return store.commit(changes);
      }),
    );
  };
  const close = async (): Promise<void> => {
    await Promise.all(pending);
    await store.close();
  };
  async function* packsSinceSave(): ReturnType<Store['packsSinceSave']> {
    await pause();
    for await (const pack of store.packsSinceSave()) yield pack;
  }

  return new Proxy(store, {
    get(target, key) {
      if (key === 'close') return close;
      if (key === 'packsSinceSave') return packsSinceSave;
      if (key === 'commit') return (changes: readonly Change[]) => track(commit(changes));
      const query: unknown = Reflect.get(target, key, target);
      if (typeof query !== 'function') return query;
      return (...args: unknown[]) =>
        track(delay(() => Reflect.apply(query, target, args) as Promise<unknown>));
    },
  });
}
