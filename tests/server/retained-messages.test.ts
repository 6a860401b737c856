import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { retainedMessages, type RetainedMessages } from '../../src/server/retained-messages.ts';
import type { Change, NodeRow } from '../../src/store/store.ts';

let values: Map<string, string>;
let commits: Change[][];
let diskIsFull: boolean;
let troubles: string[];
let shelf: RetainedMessages;

/** A store that knows the node barn and keeps single values. */
const store = {
  commit: (changes: readonly Change[]): void => {
    if (diskIsFull) throw new Error('the disk is full');
    commits.push([...changes]);
    for (const change of changes) {
      if (change.change !== 'setting') continue;
      if (change.value === null) values.delete(change.key);
      else values.set(change.key, change.value);
    }
  },
  getValue: (key: string) => values.get(key),
  nodes: () => [{ node: 'barn' } as NodeRow],
};
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const loaded = (): unknown[] =>
  shelf.load().map(({ topic, payload, qos }) => ({ topic, payload: Buffer.from(payload).toString(), qos }));

beforeEach(() => {
  vi.useFakeTimers();
  values = new Map();
  commits = [];
  troubles = [];
  diskIsFull = false;
  shelf = retainedMessages(store, { root: 'wells', onProblem: (sentence) => void troubles.push(sentence) });
});
afterEach(() => vi.useRealTimers());

describe('retainedShelf', () => {
  it('gives back what each node said last of itself, after one commit', () => {
    shelf.save('wells/barn/presence', bytes('"gone"'), 1);
    shelf.save('wells/barn/presence', bytes('"here"'), 1);
    shelf.save('wells/barn/hello', bytes('{"contract":1}'), 0);
    expect(commits).toHaveLength(0);
    vi.runAllTimers();
    expect(commits).toHaveLength(1);
    expect(loaded()).toEqual([
      { topic: 'wells/barn/hello', payload: '{"contract":1}', qos: 0 },
      { topic: 'wells/barn/presence', payload: '"here"', qos: 1 },
    ]);
  });

  it('keeps neither what the live loop says itself nor what nobody may retain', () => {
    shelf.save('wells/barn/kept', bytes('{}'), 1);
    shelf.save('wells/barn/readings', bytes('[]'), 1);
    shelf.flush();
    expect(commits).toHaveLength(0);
  });

  it('forgets a topic that was cleared', () => {
    shelf.save('wells/barn/presence', bytes('"here"'), 1);
    shelf.flush();
    shelf.save('wells/barn/presence', null, 1);
    shelf.flush();
    expect(loaded()).toEqual([]);
  });

  it('commits at a flush what waits, and not a second time later', () => {
    shelf.save('wells/barn/presence', bytes('"here"'), 1);
    shelf.flush();
    vi.runAllTimers();
    expect(commits).toHaveLength(1);
  });

  it('says trouble of the disk in one sentence and goes on', () => {
    diskIsFull = true;
    shelf.save('wells/barn/presence', bytes('"here"'), 1);
    vi.runAllTimers();
    expect(troubles).toEqual(['Cannot keep what nodes said last of themselves: the disk is full']);
    diskIsFull = false;
    shelf.save('wells/barn/presence', bytes('"gone"'), 1);
    vi.runAllTimers();
    expect(loaded()).toEqual([{ topic: 'wells/barn/presence', payload: '"gone"', qos: 1 }]);
  });

  it.each(['', 'here', '3 eA==', '1 '])('passes over a kept value that it did not write: %j', (value) => {
    values.set('retained/wells/barn/presence', value);
    expect(loaded()).toEqual([]);
  });
});
