/**
 * The invented farm behind the interface that the pages ask: a store, the wells at this moment, and
 * acts that take effect.
 */
import type { ActRow } from '../../../src/core/domain/act-row.ts';
import type { CycleRow } from '../../../src/core/cycles/cycle-row.ts';
import { randomUUID } from 'node:crypto';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { refusalText } from '../../../src/core/decode/refusal-text.ts';
import { refuse } from '../../../src/core/decode/refuse.ts';
import type { Baseline } from '../../../src/core/baseline/baseline.ts';
import type { WrittenAct } from '../../../shared/acts/act-fields.ts';
import type { LoopDelayAnswer } from '../../../shared/api/server-state.ts';
import type { AlarmEvent, BaselineEvent, DayEvent } from '../../../shared/api/events.ts';
import type { WellStatus } from '../../../shared/api/wells.ts';
import type {
  LiveChange,
  LiveWell,
  CalendarServerState,
  StoredAlarm,
  StoredChart,
  StoredNode,
  StoredNotice,
  WebDeps,
} from '../../../src/http/deps.ts';
import { openLogbookService } from '../../../src/server/logbook-service.ts';
import { phoneSecrets } from '../../../src/server/phone-secrets.ts';
import { openWellExports } from '../../../src/server/export/well-exports.ts';
import { openStore } from '../../../src/store/open-store.ts';
import { openDocuments } from '../../../src/store/document-files.ts';
import {
  cardOf,
  cyclesOf,
  DAY_MS,
  daysOf,
  FARM_NOW_MS,
  shapeOf,
  storyOf,
  STORIES,
  wobble,
  ZONE,
} from './farm.ts';
import type { Story } from './farm.ts';

const HOUR_MS = 3_600_000;

export interface FakeFarm {
  deps: WebDeps;
  /** What was asked to be done, oldest first. */
  acts: { act: WrittenAct; by?: string }[];
  alarms: StoredAlarm[];
  nodes: StoredNode[];
  /** Runs beside those of the story. */
  runs: CycleRow[];
  healthProblems: string[];
  loopDelay: { now: LoopDelayAnswer | undefined };
  /** Whether phones reach the calendar. */
  calendarServer: { now: CalendarServerState };
  /** Tells every subscriber. */
  emit(change: LiveChange): void;
  subscribers(): number;
  clock: { nowMs: number };
  faults: unknown[];
}

interface WellHistory {
  story: Story;
  cycles: CycleRow[];
  days: DayEvent[];
}

/** Made once: it does not change, acts only add to what stands beside it. */
const histories: ReadonlyMap<string, WellHistory> = new Map(
  STORIES.map((story) => {
    const cycles = cyclesOf(story);
    return [story.well, { story, cycles, days: daysOf(story, cycles) }];
  }),
);

export function fakeFarm(): FakeFarm {
  const clock = { nowMs: FARM_NOW_MS };
  const listeners = new Set<(change: LiveChange) => void>();
  const emit = (change: LiveChange): void => listeners.forEach((fn) => fn(change));
  const [alarms, nodes] = [farmAlarms(), farmNodes()];
  const farm = {
    acts: [] as FakeFarm['acts'],
    /** The same as the store keeps them. */
    done: [] as ActRow[],
    alarms,
    nodes,
    runs: [] as CycleRow[],
    healthProblems: [] as string[],
    loopDelay: { now: undefined as LoopDelayAnswer | undefined },
    calendarServer: { now: { is: 'open', port: 8422, hosts: ['127.0.0.1'] } as CalendarServerState },
    clock,
    faults: [] as unknown[],
  };
  const store = openStore(':memory:');
  const documents = openDocuments(mkdtempSync(join(tmpdir(), 'papers-')));
  const deps: WebDeps = {
    store: fakeStore(farm),
    calendarAccess: { ...phoneSecrets(store, () => clock.nowMs), serverState: () => farm.calendarServer.now },
    logbook: openLogbookService({ store, documents, now: () => clock.nowMs }),
    exports: openWellExports({
      store,
      documents,
      now: () => clock.nowMs,
      commit: async (plan) => {
        await store.commit(await plan());
        return undefined;
      },
      writeCard: () => Promise.resolve(),
    }),
    live: {
      wells: async () => [...histories.values()].map((one) => statusOf(one, clock.nowMs, farm.done)),
      well: async (name) => liveWell(histories.get(name), clock.nowMs, farm.done),
      subscribe: (fn) => {
        listeners.add(fn);
        return () => listeners.delete(fn);
      },
    },
    act: async (act, by, refuse) => {
      const why = await refuse?.();
      if (why !== undefined) return { problem: why };
      farm.acts.push({ act, ...(by === undefined ? {} : { by }) });
      farm.done.push({
        id: randomUUID(),
        atMs: clock.nowMs,
        ...(by === undefined ? {} : { by }),
        ...('well' in act ? { well: act.well } : {}),
        kind: act.kind,
        body: act,
      });
      if (act.kind === 'card-changed') {
        const well = String(act.card['well']);
        const row = { id: randomUUID(), atMs: clock.nowMs, well, kind: act.kind, body: act };
        await store.commit([{ change: 'act', row: { ...row, ...(by === undefined ? {} : { by }) } }]);
      }
      if (act.kind === 'pinned' && act.pump !== 'p1')
        return { problem: `Cannot pin: ${act.well} has no pump ${act.pump}` };
      const row =
        act.kind === 'acknowledged'
          ? alarms.find((one) => one.well === act.well && one.alarm === act.alarm)
          : undefined;
      if (row) {
        Object.assign(row, {
          acknowledgedMs: clock.nowMs,
          state: 'acknowledged',
          ...(by ? { acknowledgedBy: by } : {}),
        });
        emit({ is: 'alarm', alarm: row });
      }
      return { done: true, atMs: clock.nowMs };
    },
    approveNode: async (name) => {
      const row = nodes.find((one) => one.node === name);
      if (!row || row.approved) return { problem: `Cannot approve ${name}: it is not pending approval` };
      row.approved = true;
      return { done: true };
    },
    forget: async (name) => {
      const at = nodes.findIndex((one) => one.node === name && !one.approved);
      if (at < 0) return `Cannot forget ${name}: it has sent readings, and they are kept`;
      nodes.splice(at, 1);
      return undefined;
    },
    metrics: async () => [
      {
        name: 'stillwell_packs',
        type: 'counter',
        help: 'Packs that were kept.',
        samples: [{ value: 91_422 }],
      },
      {
        name: 'stillwell_wells',
        type: 'gauge',
        help: 'Wells that are watched.',
        samples: [{ value: histories.size }],
      },
    ],
    healthProblems: () => farm.healthProblems,
    loopDelay: () => farm.loopDelay.now,
    onError: (error) => farm.faults.push(error),
    version: '0.1.0-farm',
    startedMs: FARM_NOW_MS - 3 * HOUR_MS,
    now: () => clock.nowMs,
  };
  return { ...farm, deps, emit, subscribers: () => listeners.size };
}

/**
 * Amps and kPa at a moment, from the cycles: between two runs pressure falls evenly, within one it
 * rises.
 */
function valueAt({ story, cycles }: WellHistory, channel: string, atMs: number): number | null {
  const at = lastBefore(cycles, atMs);
  const row = cycles[at];
  if (!row || atMs > FARM_NOW_MS + HOUR_MS) return null;
  const noise = wobble(12, Math.floor(atMs / 1000));
  const stuck = stuckSince(story);
  const { cutInKpa: low, cutOutKpa: high, amps } = story.day(0);
  if (atMs >= stuck) return channel === 'current' ? amps + 0.05 * noise : (high + 30 + noise) * 1000;
  const running = atMs < row.stoppedMs;
  if (channel === 'current') return running ? (row.event.amps ?? amps) + 0.05 * noise : 0.02 * noise;
  const nextMs = cycles[at + 1]?.startedMs ?? row.stoppedMs + (row.event.restedS ?? 600) * 1000;
  const share = running
    ? (atMs - row.startedMs) / (row.stoppedMs - row.startedMs)
    : Math.max(0, 1 - (atMs - row.stoppedMs) / (nextMs - row.stoppedMs));
  return (
    ((row.event.cutInKpa ?? low) +
      ((row.event.cutOutKpa ?? high) - (row.event.cutInKpa ?? low)) * share +
      noise) *
    1000
  );
}

function lastBefore(cycles: readonly CycleRow[], atMs: number): number {
  let [low, high] = [0, cycles.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (cycles[middle]!.startedMs <= atMs) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** The orchard's contacts stuck at half past eight. */
function stuckSince(story: Story): number {
  return story.well === 'orchard' ? FARM_NOW_MS - 3.75 * HOUR_MS : Infinity;
}

/** Readings of one second of one well, in the wire's units: what a node would have sent. */
export function secondOf(well: string, atMs: number): LiveChange {
  const one = histories.get(well)!;
  return {
    is: 'readings',
    well,
    columns: ['current', 'pressure'].map((channel) => ({
      channel,
      timesMs: [atMs],
      values: [valueAt(one, channel, atMs) ?? Number.NaN],
    })),
  };
}

function statusOf({ story, cycles }: WellHistory, nowMs: number, done: readonly ActRow[]): WellStatus {
  const today = cycles.filter((row) => row.startedMs > nowMs - 12.25 * HOUR_MS);
  const last = done.findLast((row) => row.well === story.well && row.kind.startsWith('visit-'));
  const stuck = stuckSince(story);
  const running = nowMs >= stuck;
  const kpa = valueAt({ story, cycles, days: [] }, 'pressure', nowMs);
  const lastMs = cycles.at(-1)?.stoppedMs;
  const since = running ? stuck : lastMs;
  return {
    well: story.well,
    site: 'harrow-bend',
    timeZone: ZONE,
    uses: story.uses,
    mode: last?.kind === 'visit-opened' ? 'visit' : 'watching',
    lastReadingMs: nowMs - 2_000,
    ...(kpa === null ? {} : { pressureKpa: kpa / 1000 }),
    pumps: [
      {
        pump: 'p1',
        running,
        ...(since === undefined ? {} : { sinceMs: since }),
        amps: running ? story.day(0).amps : 0.02,
        startsToday: today.length + (running ? 1 : 0),
        ranTodayS: today.reduce((sum, row) => sum + row.event.ranS, running ? (nowMs - stuck) / 1000 : 0),
      },
    ],
  };
}

function liveWell(
  one: WellHistory | undefined,
  nowMs: number,
  done: readonly ActRow[],
): LiveWell | undefined {
  if (!one) return undefined;
  const { story } = one;
  return {
    status: statusOf(one, nowMs, done),
    card: cardOf(story),
    sensors: ['current', 'pressure'].map((channel) => ({ channel, node: story.well, lastMs: nowMs - 2_000 })),
    checks: [
      {
        what: 'current-at-rest',
        pump: 'p1',
        state: 'agrees',
        measured: [{ value: 0.02, dimension: 'current' }],
      },
      {
        what: 'precharge',
        pump: 'p1',
        state: 'differs',
        card: [{ value: 290, dimension: 'pressure' }],
        measured: [{ value: 275.8, dimension: 'pressure' }],
      },
      { what: 'volts', pump: 'p1', state: 'not-yet' },
    ],
    normals: [{ pump: 'p1', baseline: baselineOf(story) }],
    previousNormals: [],
    evaluations: [],
  };
}

function baselineOf(story: Story): Baseline {
  const day = story.day(story.days);
  const shape = shapeOf(day, day.ranS, 99, 99);
  const spread = (size: number) => shape.amps.map(() => size);
  return {
    atMs: FARM_NOW_MS - (story.days - 7) * DAY_MS,
    pinned: false,
    amps: { median: day.amps, spread: 0.05, n: 120 },
    ranSPerDay: { median: day.starts * day.ranS, spread: 300, n: 7 },
    shape: { ...shape, ampsSpread: spread(0.07), kpaSpread: spread(4) },
  };
}

function fakeStore(farm: Pick<FakeFarm, 'alarms' | 'nodes' | 'runs'> & { done: ActRow[] }): WebDeps['store'] {
  return {
    chart: async (node, channel, fromMs, toMs, points) =>
      chartOf(histories.get(node), channel, fromMs, toMs, points),
    nodes: async () => farm.nodes,
    acts: async ({ well }) =>
      [...farmActs(), ...farm.done].filter((row) => well === undefined || row.well === well),
    cycles: async (well, fromMs, toMs) =>
      [
        ...(histories.get(well)?.cycles ?? []),
        ...farm.runs.filter(({ event }) => event.well === well),
      ].filter((row) => row.stoppedMs >= fromMs && row.stoppedMs < toMs),
    days: async (well, fromMs, toMs) =>
      (histories.get(well)?.days ?? []).filter((day) => {
        const endedMs = Date.parse(`${day.date}T06:00:00Z`) + DAY_MS;
        return endedMs >= fromMs && endedMs < toMs;
      }),
    baselines: async (well) => (histories.has(well) ? [baselineEvent(storyOf(well))] : []),
    alarms: async ({ well, fromMs, active }) =>
      farm.alarms.filter(
        (row) =>
          (well === undefined || row.well === well) &&
          (active === undefined || active === (row.clearedMs === undefined)) &&
          (fromMs === undefined || (row.clearedMs ?? Infinity) >= fromMs),
      ),
    notices: async ({ state, limit = 100 }) =>
      farmNotices()
        .filter((row) => state === undefined || row.state === state)
        .slice(0, limit),
    refused: async (limit) => ({
      counts: [
        { reason: 'wrong-unit', count: 12, lastMs: FARM_NOW_MS - 2 * HOUR_MS },
        { reason: 'not-let-in', count: 340, lastMs: FARM_NOW_MS - 60_000 },
      ],
      last: [
        {
          atMs: FARM_NOW_MS - 2 * HOUR_MS,
          topic: 'wells/mill-yard/readings',
          node: 'mill-yard',
          reason: 'wrong-unit',
          detail: refusalText(
            refuse('wrong-unit', 'unit', { channel: 'pressure', unit: 'Pa', place: 1, value: '"psi"' }),
          ),
          head: Buffer.from('[{"bn":"mill-yard:","n":"pressure","u":"psi","v":52}]').toString('base64'),
        },
      ].slice(0, limit),
    }),
  };
}

function chartOf(
  one: WellHistory | undefined,
  channel: string,
  fromMs: number,
  toMs: number,
  points: number,
): StoredChart {
  const stepMs = Math.max(1, Math.ceil((toMs - fromMs) / points));
  const n = Math.ceil((toMs - fromMs) / stepMs);
  const mean = Array.from({ length: n }, (_, i) => {
    const atMs = fromMs + i * stepMs;
    return one && atMs <= FARM_NOW_MS && (channel === 'current' || channel === 'pressure')
      ? valueAt(one, channel, atMs)
      : null;
  });
  return { fromMs, stepMs, low: mean, high: mean, mean };
}

function baselineEvent(story: Story): BaselineEvent {
  const { amps, cutInKpa, cutOutKpa, ranS, starts } = story.day(story.days);
  const at = new Date(FARM_NOW_MS - (story.days - 7) * DAY_MS).toISOString();
  return {
    event: 'baseline',
    well: story.well,
    pump: 'p1',
    at,
    amps,
    ampsSpread: 0.05,
    cutInKpa,
    cutOutKpa,
    ranS,
    cyclesPerDay: starts,
  };
}

function alarmRow(
  well: string,
  alarm: AlarmEvent['alarm'],
  ms: { since: number; raised: number; cleared?: number },
  finding: Required<Pick<AlarmEvent, 'priority' | 'reason' | 'figures' | 'evidence' | 'causes'>>,
): StoredAlarm {
  const event: AlarmEvent = {
    event: 'alarm',
    well,
    pump: 'p1',
    alarm,
    state: 'raised',
    at: new Date(ms.raised).toISOString(),
    since: new Date(ms.since).toISOString(),
    ...finding,
  };
  return {
    id: `${well}/p1/${alarm}/${ms.since}`,
    well,
    pump: 'p1',
    alarm,
    state: ms.cleared === undefined ? 'unacknowledged' : 'normal',
    sinceMs: ms.since,
    raisedMs: ms.raised,
    ...(ms.cleared === undefined ? {} : { clearedMs: ms.cleared }),
    event,
  };
}

function farmAlarms(): StoredAlarm[] {
  const now = FARM_NOW_MS;
  return [
    alarmRow(
      'orchard',
      'long-run',
      { since: now - 3.75 * HOUR_MS, raised: now - 2 * HOUR_MS },
      {
        priority: 'now',
        reason: 'run-too-long',
        figures: { ranS: 13_500, kpa: 345, longestRunS: 2_520 },
        evidence: { ranS: 13_500, longestS: 2_520 },
        causes: [
          { cause: 'switch-contacts-stuck', weight: 0.7 },
          { cause: 'broken-pipe', weight: 0.2 },
          { cause: 'open-tap', weight: 0.1 },
        ],
      },
    ),
    alarmRow(
      'north-paddock',
      'short-cycling',
      { since: now - 4 * DAY_MS, raised: now - 4 * DAY_MS + 1_080_000 },
      {
        priority: 'soon',
        reason: 'starts-too-close',
        figures: { starts: 14, inS: 1_080, ranS: 20 },
        evidence: { starts: 14, inS: 1_080, normal: 1 },
        causes: [
          { cause: 'tank-air-lost', weight: 0.8 },
          { cause: 'leak', weight: 0.2 },
        ],
      },
    ),
    alarmRow(
      'mill-yard',
      'amps-low',
      { since: now - 9 * DAY_MS, raised: now - 8 * DAY_MS },
      {
        priority: 'soon',
        reason: 'current-below-normal',
        figures: { nowA: 7.4, normalA: 8.1, deviation: -0.086, supply: 'excluded' },
        evidence: { amps: 7.4, normal: 8.1 },
        causes: [
          { cause: 'worn-pump', weight: 0.6 },
          { cause: 'low-well', weight: 0.4 },
        ],
      },
    ),
    alarmRow(
      'house-hill',
      'node-silent',
      { since: now - 56 * DAY_MS, raised: now - 56 * DAY_MS, cleared: now - 55 * DAY_MS },
      {
        priority: 'soon',
        reason: 'node-silent',
        figures: { node: 'house-hill', silentS: 93_600 },
        evidence: { silentS: 93_600 },
        causes: [{ cause: 'node-offline', weight: 1 }],
      },
    ),
    alarmRow(
      'house-hill',
      'cycle-count',
      { since: now - 200 * DAY_MS, raised: now - 200 * DAY_MS, cleared: now - 193 * DAY_MS },
      {
        priority: 'note',
        reason: 'starts-over-normal',
        figures: { starts: 34, normalPerDay: 21 },
        evidence: { cycles: 34, normal: 21 },
        causes: [{ cause: 'habit-changed', weight: 1 }],
      },
    ),
  ];
}

function farmNodes(): StoredNode[] {
  const hello = (node: string) => ({
    node,
    contract: 1,
    firmware: 'tarn-clamp 0.3.1',
    fedFrom: 'other-circuit' as const,
    holdsS: DAY_MS / 1000,
    channels: [
      { n: 'current', u: 'A', every: 1, max: 60 },
      { n: 'pressure', u: 'Pa', every: 1, max: 1_034_000 },
    ],
  });
  return [
    ...STORIES.map(({ well }) => ({
      node: well,
      approved: true,
      lastHeardMs: FARM_NOW_MS - 2_000,
      hello: hello(well),
    })),
    {
      node: 'creek-trough',
      approved: false,
      lastHeardMs: FARM_NOW_MS - 40_000,
      hello: hello('creek-trough'),
    },
  ];
}

function farmActs(): ActRow[] {
  return [
    {
      id: 'a1',
      atMs: FARM_NOW_MS - 30 * DAY_MS,
      by: 'Ines',
      well: 'house-hill',
      kind: 'visit-opened',
      body: { kind: 'visit-opened', well: 'house-hill' },
    },
    {
      id: 'a2',
      atMs: FARM_NOW_MS - 30 * DAY_MS + 2 * HOUR_MS,
      by: 'Ines',
      well: 'house-hill',
      kind: 'visit-closed',
      body: { kind: 'visit-closed', well: 'house-hill' },
    },
  ];
}

function farmNotices(): StoredNotice[] {
  return [
    {
      id: 'n1',
      alarmId: `orchard/p1/long-run/${FARM_NOW_MS - 3.75 * HOUR_MS}`,
      to: 'ines',
      what: 'raised',
      dueMs: FARM_NOW_MS - 2 * HOUR_MS,
      createdMs: FARM_NOW_MS - 2 * HOUR_MS,
      sentMs: FARM_NOW_MS - 2 * HOUR_MS + 1_500,
      tries: 1,
      state: 'sent',
      body: {
        subject: 'Orchard: long run',
        text: 'Orchard: long run.',
        event: {
          event: 'alarm',
          well: 'orchard',
          alarm: 'long-run',
          state: 'raised',
          at: new Date(FARM_NOW_MS - 2 * HOUR_MS).toISOString(),
        },
      },
    },
  ];
}
