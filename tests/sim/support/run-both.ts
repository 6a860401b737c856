/**
 * One journey run through `replay` and through the live server, and what each made of it in one
 * shape that can be compared.
 */
import { Readable } from 'node:stream';
import { vi } from 'vitest';
import type { AlarmEvent, WellEvent } from '../../../shared/api/events.ts';
import { openLiveServer, type LiveServer } from '../../../src/server/live/server.ts';
import { runReplay } from '../../../src/replay/replay.ts';
import { openStore } from '../../../src/store/open-store.ts';
import type { AlarmRow, Store } from '../../../src/store/store.ts';
import { settle } from '../../support/settle.ts';
import { recordingOf, type Scenario } from './scenario.ts';

/** One alarm from raised to cleared, as it has settled. */
export interface SettledAlarm {
  key: string;
  raised: AlarmEvent;
  clearedMs?: number;
}

export interface Settled {
  cycles: string[];
  days: string[];
  baselines: string[];
  alarms: SettledAlarm[];
}

/** Judged by arrival (contract, section 4). */
const BY_ARRIVAL = new Set(['node-silent', 'site-silent', 'node-conflict']);

const sorted = (lines: readonly unknown[]): string[] => lines.map((line) => JSON.stringify(line)).sort();
const keyOf = (event: AlarmEvent): string =>
  [event.well, event.pump ?? '', event.node ?? '', event.alarm].join('/');

export async function replayScenario(journey: Scenario): Promise<Settled> {
  let text = '';
  const problems: string[] = [];
  const code = await runReplay(
    { recording: '-', cards: [] },
    {
      stdin: Readable.from([Buffer.from(recordingOf(journey))]),
      out: (more) => void (text += more),
      err: (line) => problems.push(line),
      progress: false,
    },
  );
  if (code !== 0) throw new Error(`Cannot replay: exit ${code}: ${problems.join('; ')}`);
  const events = text
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as WellEvent);
  const of = (kind: WellEvent['event']): WellEvent[] => events.filter((event) => event.event === kind);
  return {
    cycles: sorted(of('cycle')),
    days: sorted(of('day')),
    baselines: sorted(of('baseline')),
    alarms: pairAlarms(of('alarm') as AlarmEvent[]),
  };
}

function pairAlarms(events: readonly AlarmEvent[]): SettledAlarm[] {
  const made: SettledAlarm[] = [];
  for (const event of events) {
    if (BY_ARRIVAL.has(event.alarm)) continue;
    const key = keyOf(event);
    if (event.state === 'raised') {
      made.push({ key, raised: event });
      continue;
    }
    const active = made.findLast((alarm) => alarm.key === key && alarm.clearedMs === undefined);
    if (!active)
      throw new Error(`An alarm is ${event.state} that was never raised: ${JSON.stringify(event)}`);
    if (event.state === 'cleared') active.clearedMs = Date.parse(event.at);
    else active.raised = event;
  }
  return made;
}

/** What happens to the server between messages. */
export interface Disruptions {
  /** Shares of the items after which the server stops: cleanly, or dead. */
  stops: readonly { fraction: number; how: 'clean' | 'killed' }[];
  tickEveryMs: number;
}

export const NO_DISRUPTIONS: Disruptions = { stops: [], tickEveryMs: 5000 };

export interface LiveRun {
  settled: Settled;
  rows: AlarmRow[];
  store: Store;
}

/**
 * Runs a journey live, by the journey's own clock. Timers are the test's: nothing depends on how
 * fast the machine is.
 */
export async function runLive(
  journey: Scenario,
  disruptions: Disruptions,
  store = openStore(':memory:'),
): Promise<LiveRun> {
  const clock = { nowMs: journey.startMs };
  const log: string[] = [];
  const open = (): Promise<LiveServer> =>
    openLiveServer({
      store,
      root: 'wells',
      observe: false,
      approveAll: true,
      now: () => clock.nowMs,
      publish: () => undefined,
      notify: () => [],
      log: (level, sentence) => void (level === 'info' || log.push(sentence)),
      autoTick: false,
      batchDelayMs: 0,
    });
  vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval'] });
  try {
    let live = await open();
    const stops = disruptions.stops.map(({ fraction, how }) => ({
      after: Math.floor(fraction * journey.items.length),
      how,
    }));
    let tickMs = clock.nowMs;
    for (const [index, item] of journey.items.entries()) {
      for (; tickMs < item.atMs; tickMs += disruptions.tickEveryMs) {
        clock.nowMs = tickMs;
        // Most ticks find no turn waiting for its timer, and going round the timers is dear.
        if (vi.getTimerCount() > 0) await vi.advanceTimersByTimeAsync(1);
        await live.tick();
      }
      clock.nowMs = item.atMs;
      if ('act' in item) {
        await vi.advanceTimersByTimeAsync(1);
        const done = await live.applyAct(item.act);
        if ('problem' in done) throw new Error(done.problem);
      } else
        live.receive({ topic: item.topic, payload: new TextEncoder().encode(item.payload), retained: false });
      for (const stop of stops) {
        if (stop.after !== index) continue;
        await settle(live);
        if (stop.how === 'clean') await live.close();
        live = await open();
      }
    }
    await settle(live);
    // The last late packs wait for their turn of running again, a minute at most.
    for (const sinceEndMs of [-62_000, -31_000, 0]) {
      clock.nowMs = journey.endMs + sinceEndMs;
      await live.tick();
    }
    if (log.length > 0) throw new Error(log.join('\n'));
    return { settled: await settledOf(store, live), rows: await store.alarms({}), store };
  } finally {
    vi.useRealTimers();
  }
}

async function settledOf(store: Store, live: LiveServer): Promise<Settled> {
  const wells = [...live.state().pipelines.keys()];
  const ofAll = async <T>(query: (well: string) => Promise<T[]>): Promise<T[]> =>
    (await Promise.all(wells.map(query))).flat();
  const cycles = await ofAll((well) => store.cycles(well, 0, Number.MAX_SAFE_INTEGER));
  const rows = await store.alarms({});
  return {
    cycles: sorted(cycles.map((row) => row.event)),
    days: sorted(await ofAll((well) => store.days(well, 0, Number.MAX_SAFE_INTEGER))),
    baselines: sorted(await ofAll((well) => store.baselines(well))),
    alarms: rows
      .filter((row) => row.withdrawnMs === undefined && !BY_ARRIVAL.has(row.alarm))
      .map((row) => ({
        key: keyOf(row.event),
        raised: row.event,
        ...(row.clearedMs !== undefined && { clearedMs: row.clearedMs }),
      })),
  };
}
