import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { retainedMessages, type RetainedMessages } from '../../src/server/retained-messages.ts';
import type { Change, NodeRow } from '../../src/store/store.ts';

let values: Map<string, string>;
let commits: Change[][];
let diskIsFull: boolean;
let troubles: string[];
let retained: RetainedMessages;

/** A store that knows the node barn and keeps single values. */
const store = {
  commit: async (changes: readonly Change[]): Promise<void> => {
    if (diskIsFull) throw new Error('the disk is full');
    commits.push([...changes]);
    for (const change of changes) {
      if (change.change !== 'setting') continue;
      if (change.value === null) values.delete(change.key);
      else values.set(change.key, change.value);
    }
  },
  getValue: async (key: string) => values.get(key),
  nodes: async () => [{ node: 'barn' } as NodeRow],
};
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const loaded = async (): Promise<unknown[]> =>
  (await retained.load()).map(({ topic, payload, qos }) => ({
    topic,
    payload: Buffer.from(payload).toString(),
    qos,
  }));

beforeEach(() => {
  vi.useFakeTimers();
  values = new Map();
  commits = [];
  troubles = [];
  diskIsFull = false;
  retained = retainedMessages(store, {
    root: 'wells',
    onProblem: (sentence) => void troubles.push(sentence),
  });
});
afterEach(() => vi.useRealTimers());

describe('retainedShelf', () => {
  it('gives back what each node said last of itself, after one commit', async () => {
    retained.save('wells/barn/presence', bytes('"gone"'), 1);
    retained.save('wells/barn/presence', bytes('"here"'), 1);
    retained.save('wells/barn/hello', bytes('{"contract":1}'), 0);
    expect(commits).toHaveLength(0);
    await vi.runAllTimersAsync();
    expect(commits).toHaveLength(1);
    expect(await loaded()).toEqual([
      { topic: 'wells/barn/hello', payload: '{"contract":1}', qos: 0 },
      { topic: 'wells/barn/presence', payload: '"here"', qos: 1 },
    ]);
  });

  it('keeps neither what the live loop says itself nor what nobody may retain', async () => {
    retained.save('wells/barn/kept', bytes('{}'), 1);
    retained.save('wells/barn/readings', bytes('[]'), 1);
    await retained.flush();
    expect(commits).toHaveLength(0);
  });

  it('forgets a topic that was cleared', async () => {
    retained.save('wells/barn/presence', bytes('"here"'), 1);
    await retained.flush();
    retained.save('wells/barn/presence', null, 1);
    await retained.flush();
    expect(await loaded()).toEqual([]);
  });

  it('commits at a flush what waits, and not a second time later', async () => {
    retained.save('wells/barn/presence', bytes('"here"'), 1);
    await retained.flush();
    await vi.runAllTimersAsync();
    expect(commits).toHaveLength(1);
  });

  it('says trouble of the disk in one sentence and goes on', async () => {
    diskIsFull = true;
    retained.save('wells/barn/presence', bytes('"here"'), 1);
    await vi.runAllTimersAsync();
    expect(troubles).toEqual(['Cannot save the last status of the nodes: the disk is full']);
    diskIsFull = false;
    retained.save('wells/barn/presence', bytes('"gone"'), 1);
    await vi.runAllTimersAsync();
    expect(await loaded()).toEqual([{ topic: 'wells/barn/presence', payload: '"gone"', qos: 1 }]);
  });

  it.each(['', 'here', '3 eA==', '1 '])(
    'passes over a kept value that it did not write: %j',
    async (value) => {
      values.set('retained/wells/barn/presence', value);
      expect(await loaded()).toEqual([]);
    },
  );
});
