/**
 * A store that takes its time: what comes during a commit waits, and nobody sees what is not kept
 * yet.
 */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { openLiveServer } from '../../../src/server/live/server.ts';
import { openStore } from '../../../src/store/open-store.ts';
import type { Change } from '../../../src/store/store.ts';
import { settle } from '../../support/settle.ts';
import { helloText, NOON } from './rig.ts';

beforeEach(
  () => void vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval'] }),
);
afterEach(() => vi.useRealTimers());

it('a message, an act and a reader that come during a commit wait for its end', async () => {
  const store = openStore(':memory:');
  const gate = { open: (): void => undefined, closed: Promise.resolve(), running: 0, most: 0 };
  const commit = async (changes: readonly Change[]): Promise<void> => {
    gate.most = Math.max(gate.most, ++gate.running);
    await gate.closed;
    await store.commit(changes);
    gate.running--;
  };
  const live = await openLiveServer({
    store: new Proxy(store, {
      get: (target, key) => {
        if (key === 'commit') return commit;
        const value: unknown = Reflect.get(target, key, target);
        return typeof value === 'function' ? (value.bind(target) as unknown) : value;
      },
    }),
    root: 'wells',
    observe: false,
    approveAll: true,
    now: () => NOON,
    publish: () => undefined,
    notify: () => [],
    log: () => undefined,
    autoTick: false,
    batchDelayMs: 0,
  });
  const order: string[] = [];
  const say = (node: string): void =>
    live.receive({
      topic: `wells/${node}/hello`,
      payload: new TextEncoder().encode(helloText()),
      retained: false,
      acknowledge: () => void order.push(`kept ${node}`),
    });
  gate.closed = new Promise((open) => (gate.open = open));
  say('barn');
  await vi.advanceTimersByTimeAsync(1);
  expect(gate.running).toBe(1);
  say('shed');
  const act = live.applyAct({ kind: 'visit-opened', well: 'barn' }).then(() => order.push('act'));
  const seen = live.read(({ nodes }) => nodes.size).then((nodes) => order.push(`read ${nodes}`));
  await vi.advanceTimersByTimeAsync(5);
  expect(order).toEqual([]);
  gate.open();
  await Promise.all([act, seen, settle(live)]);
  expect(order).toEqual(['kept barn', 'act', 'read 1', 'kept shed']);
  expect(gate.most).toBe(1);
  expect((await store.nodes()).map(({ node }) => node)).toEqual(['barn', 'shed']);
  await live.close();
});
