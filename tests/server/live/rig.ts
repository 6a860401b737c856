/**
 * The live server with a clock, timers and a disk of the test's own: nothing waits, and nothing
 * depends on the machine.
 */
import { encodePackJson } from '../../../src/core/decode/senml-json/encode-pack.ts';
import type { LoopOptions } from '../../../src/server/live/loop.ts';
import { openLiveServer, type LiveServer } from '../../../src/server/live/server.ts';
import { decideNotices } from '../../../src/core/notify/decide-notices.ts';
import type { NoticeRow } from '../../../src/core/notify/notice-row.ts';
import { openStore } from '../../../src/store/open-store.ts';
import { StoreError } from '../../../src/store/store-error.ts';
import { settle } from '../../support/settle.ts';
import type { AlarmRow, Store } from '../../../src/store/store.ts';

/** A Monday, 12:00 UTC. */
export const NOON = Date.UTC(2026, 2, 2, 12);
export const MINUTE = 60_000;
export const HOUR = 60 * MINUTE;

interface Sent {
  retained?: boolean;
  /** Names that the sender's credential was given beside its own. */
  given?: readonly string[];
}

export interface Rig {
  live: LiveServer;
  store: Store;
  /** Published messages: the newest of each topic. */
  published: Map<string, string>;
  /** How often something was published to each topic. */
  publishCounts: Map<string, number>;
  log: string[];
  /** `odd`: reading readings back fails by a fault of our own. */
  disk: { full: boolean; odd: boolean };
  nowMs: () => number;
  /** A message comes now; `kept` is whether it was said to be on disk. */
  send: (topic: string, payload: string, how?: Sent) => Promise<{ kept: boolean }>;
  /** Time goes on, with a beat each second or each `stepMs`. */
  wait: (ms: number, stepMs?: number) => Promise<void>;
  /** Everything in memory is gone, as after a crash; or it ends cleanly first. */
  restart: (how: 'killed' | 'clean', awayMs?: number) => Promise<void>;
  alarms: (alarm?: string) => Promise<AlarmRow[]>;
  notices: () => Promise<NoticeRow[]>;
}

const FARMER = {
  name: 'farm office',
  channels: ['mqtt'],
  priorities: ['now', 'soon', 'note'],
} as const;

/** Needs `useTestTimers` around each test. */
export async function openRig(options: Partial<LoopOptions> = {}, fromMs = NOON): Promise<Rig> {
  const clock = { nowMs: fromMs };
  const disk = { full: false, odd: false };
  const store = withDisk(openStore(':memory:'), disk);
  const published = new Map<string, string>();
  const publishCounts = new Map<string, number>();
  const log: string[] = [];
  const open = (): Promise<LiveServer> =>
    openLiveServer({
      store,
      root: 'wells',
      observe: false,
      approveAll: true,
      now: () => clock.nowMs,
      publish: (topic, payload) => {
        published.set(topic, payload);
        publishCounts.set(topic, (publishCounts.get(topic) ?? 0) + 1);
      },
      notify: (change, { nowMs }) =>
        decideNotices(change, {
          recipients: [{ ...FARMER, priorities: [...FARMER.priorities] }],
          nowMs,
          units: 'us',
          timeZone: 'UTC',
        }).flatMap((decision) => ('row' in decision ? [decision.row] : [])),
      log: (level, sentence) => void (level === 'info' || log.push(sentence)),
      autoTick: false,
      batchDelayMs: 0,
      ...options,
    });
  const rig: Rig = {
    live: await open(),
    store,
    published,
    publishCounts,
    log,
    disk,
    nowMs: () => clock.nowMs,
    send: async (topic, payload, { retained = false, given } = {}) => {
      const mark = { kept: false };
      rig.live.receive({
        topic,
        payload: new TextEncoder().encode(payload),
        retained,
        ...(given && { given: () => given }),
        acknowledge: () => void (mark.kept = true),
      });
      await settle(rig.live);
      return mark;
    },
    wait: async (ms, stepMs = 1000) => {
      const untilMs = clock.nowMs + ms;
      while (clock.nowMs < untilMs) {
        clock.nowMs = Math.min(untilMs, clock.nowMs + stepMs);
        await rig.live.tick();
      }
    },
    restart: async (how, awayMs = 0) => {
      if (how === 'clean') await rig.live.close();
      clock.nowMs += awayMs;
      rig.live = await open();
    },
    alarms: async (alarm) =>
      (await store.alarms({})).filter((row) => alarm === undefined || row.alarm === alarm),
    notices: () => store.notices({}),
  };
  return rig;
}

/** A disk that can be full: then nothing is kept, and what was kept stays. */
function withDisk(store: Store, disk: Rig['disk']): Store {
  const commit: Store['commit'] = async (changes) => {
    if (disk.full) throw new StoreError('disk-full', 'Cannot keep: the disk is full. Make room.');
    await store.commit(changes);
  };
  return new Proxy(store, {
    get: (target, key) => {
      if (key === 'commit') return commit;
      if (key === 'readings' && disk.odd) return () => Promise.reject(new TypeError('a fault of our own'));
      const value: unknown = Reflect.get(target, key, target);
      return typeof value === 'function' ? (value.bind(target) as unknown) : value;
    },
  });
}

export interface Readings {
  fromMs: number;
  everyS?: number;
  seq?: number;
  boot?: number;
  current?: readonly number[];
  /** kPa. */
  pressure?: readonly number[];
}

/** A pack of readings as a node sends it. */
export function packText(
  node: string,
  { fromMs, everyS = 1, seq, boot = 17, current, pressure }: Readings,
): string {
  const column = (channel: string, values: readonly number[]) => ({
    channel,
    times: Float64Array.from(values, (_, i) => fromMs + i * everyS * 1000),
    values: Float64Array.from(values),
  });
  const bytes = encodePackJson({
    node,
    clock: 'utc',
    ...(seq !== undefined && { boot, seq }),
    columns: [
      ...(current ? [column('current', current)] : []),
      ...(pressure
        ? [
            column(
              'pressure',
              pressure.map((kpa) => Math.round(kpa * 1000)),
            ),
          ]
        : []),
    ],
  });
  return new TextDecoder().decode(bytes);
}

export function helloText(more: Record<string, unknown> = {}): string {
  const channels = [
    { n: 'current', u: 'A', every: 1 },
    { n: 'pressure', u: 'Pa', every: 1 },
  ];
  return JSON.stringify({ contract: 1, boot: 17, clock: 'utc', channels, ...more });
}

/** The same value so many times. */
export const times = (n: number, value: number): number[] => Array.from({ length: n }, () => value);
