/**
 * The loop sleeps until something is due: nothing is late for it, and wells where nothing happens
 * cost nothing meanwhile.
 */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openLiveServer, type LiveServer } from '../../../src/server/live/server.ts';
import { openStore } from '../../../src/store/open-store.ts';
import type { Change, Store } from '../../../src/store/store.ts';
import { helloText, HOUR, MINUTE, NOON, packText, times } from './rig.ts';

const S = 1000;

beforeEach(() => void vi.useFakeTimers({ now: NOON }));
afterEach(() => void vi.useRealTimers());

interface Station {
  live: LiveServer;
  store: Store;
  /** When each was published, ms after noon. */
  acks: number[];
  /** What was committed, and when, ms after noon. */
  commits: { atMs: number; changes: readonly Change[] }[];
}

/** A server whose timers are its own: nobody ticks it. */
async function openStation(): Promise<Station> {
  const store = openStore(':memory:');
  const station: Pick<Station, 'acks' | 'commits'> = { acks: [], commits: [] };
  const commit: Store['commit'] = (changes) => {
    station.commits.push({ atMs: Date.now() - NOON, changes });
    return store.commit(changes);
  };
  const watched = new Proxy(store, {
    get: (target, key) => {
      if (key === 'commit') return commit;
      const value: unknown = Reflect.get(target, key, target);
      return typeof value === 'function' ? (value.bind(target) as unknown) : value;
    },
  });
  const live = await openLiveServer({
    store: watched,
    root: 'wells',
    observe: false,
    approveAll: true,
    now: () => Date.now(),
    publish: (topic) => void (topic.endsWith('/kept') && station.acks.push(Date.now() - NOON)),
    notify: () => [],
    log: () => undefined,
    batchDelayMs: 0,
  });
  return { ...station, live, store };
}

function send({ live }: Station, topic: string, payload: string): void {
  live.receive({ topic: `wells/${topic}`, payload: new TextEncoder().encode(payload), retained: false });
}

async function wait(ms: number): Promise<void> {
  await vi.advanceTimersByTimeAsync(ms);
}

/** A pack of ten seconds of current that ends now. */
function sendPack(station: Station, seq: number): void {
  const fromMs = Date.now() - 10 * S;
  send(station, 'barn/readings', packText('barn', { fromMs, seq, current: times(10, 0) }));
}

const commitsOf = ({ commits }: Station, change: Change['change']): number[] =>
  commits.filter(({ changes }) => changes.some((one) => one.change === change)).map(({ atMs }) => atMs);

describe('what time alone brings comes when it is due:', () => {
  it('the silence of a node', async () => {
    const station = await openStation();
    send(station, 'barn/hello', helloText());
    await wait(HOUR);
    expect(commitsOf(station, 'news')).toEqual([]);
    await wait(1);
    // An hour for a node never heard before, and the first moment after it.
    expect(commitsOf(station, 'news')).toEqual([HOUR + 1]);
  });

  it('a well whose node is waited for no longer', async () => {
    const station = await openStation();
    await wait(5 * S);
    for (let seq = 1; seq <= 6; seq++) {
      sendPack(station, seq);
      await wait(10 * S);
    }
    const pipeline = station.live.state().pipelines.get('barn')!;
    // The last pack came at 55 s and its last reading is of 54 s; then ten seconds for its turn and
    // 30 s more.
    expect(pipeline.advancedToMs).toBe(NOON + 54 * S);
    await wait(30 * S);
    expect(pipeline.advancedToMs).toBe(NOON + 54 * S);
    await wait(2);
    expect(pipeline.advancedToMs).toBeGreaterThanOrEqual(NOON + 95 * S);
  });

  it('the whole minutes of a quiet well', async () => {
    const station = await openStation();
    await station.live.applyAct({ kind: 'card-changed', card: { well: 'mill' } });
    const pipeline = station.live.state().pipelines.get('mill')!;
    for (let minute = 1; minute <= 5; minute++) {
      await wait(MINUTE);
      expect(pipeline.state.nowMs).toBe(NOON + minute * MINUTE);
    }
  });

  it('kept, once a second at most', async () => {
    const station = await openStation();
    for (let i = 0; i < 30; i++) {
      sendPack(station, i + 1);
      await wait(100);
    }
    await wait(2 * S);
    const { acks } = station;
    expect(acks).toHaveLength(4);
    for (const [at, next] of acks.slice(1).entries()) expect(next - acks[at]!).toBe(S);
  });

  it('the save of a well, ten minutes after the one before', async () => {
    const station = await openStation();
    for (let seq = 1; seq <= 200; seq++) {
      sendPack(station, seq);
      await wait(10 * S);
    }
    const saves = commitsOf(station, 'snapshot');
    expect(saves.length).toBeGreaterThanOrEqual(3);
    for (const [at, next] of saves.slice(1).entries()) {
      expect(next - saves[at]!).toBeGreaterThanOrEqual(10 * MINUTE);
      expect(next - saves[at]!).toBeLessThanOrEqual(10 * MINUTE + S);
    }
  });

  it('the run again for late readings, once a minute', async () => {
    const station = await openStation();
    for (const seq of [1, 2, 3]) {
      sendPack(station, seq);
      await wait(10 * S);
    }
    await wait(3 * MINUTE);
    const { counts } = station.live.state();
    const before = counts.reruns;
    const fromMs = NOON + MINUTE;
    send(station, 'barn/readings', packText('barn', { fromMs, seq: 4, current: times(10, 0) }));
    await wait(2);
    expect(counts.reruns).toBe(before + 1);
    send(station, 'barn/readings', packText('barn', { fromMs: fromMs + 10 * S, seq: 5, current: [0] }));
    await wait(MINUTE - 3);
    expect(counts.reruns).toBe(before + 1);
    await wait(3);
    expect(counts.reruns).toBe(before + 2);
  });

  it('the next try after a full disk', async () => {
    const station = await openStation();
    send(station, 'barn/hello', helloText());
    await wait(S);
    vi.spyOn(station.store, 'maintain').mockImplementationOnce(() => {
      throw new Error('Cannot tidy up: the disk is full.');
    });
    await wait(5 * S);
    expect(station.live.healthProblems()).toHaveLength(1);
    await wait(10 * S);
    expect(station.live.healthProblems()).toEqual([]);
  });
});

describe('a fleet of quiet wells', () => {
  it('wakes once a minute, and passes no well on between', async () => {
    const station = await openStation();
    for (let at = 0; at < 100; at++)
      await station.live.applyAct({
        kind: 'card-changed',
        card: { well: `well-${at}` },
      });
    // The first saves are over.
    await wait(MINUTE - 1);
    const { counts } = station.live.state();
    const before = { ...counts };
    for (let minute = 1; minute <= 5; minute++) {
      await wait(1);
      expect(counts.wakes - before.wakes).toBe(minute);
      expect(counts.advances - before.advances).toBe(100 * minute);
      const commits = station.commits.length;
      await wait(MINUTE - 1);
      expect(counts.wakes - before.wakes).toBe(minute);
      // A sign of life each 30 s is all that is kept; the other one came with the minute.
      const between = station.commits.slice(commits).flatMap(({ changes }) => changes);
      expect(between.map(({ change }) => change)).toEqual(['setting']);
    }
  });

  it('of which nothing was ever heard sleeps on', async () => {
    const station = await openStation();
    await wait(MINUTE);
    const { wakes } = station.live.state().counts;
    await wait(HOUR);
    expect(station.live.state().counts.wakes).toBe(wakes);
  });
});
