/** Makes the picture that the watches look at, and says what alarms come of it. */
import type { AlarmEvent, DayEvent } from '../../shared/api/events.ts';
import { lookAll } from '../alarm/alarms.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { runAmps } from '../cycles/run.ts';
import type { OpenRun, PumpScene, Scene, WellScene } from '../watch/scene.ts';
import { channelScenes } from './channels.ts';
import type { Emit } from './emit.ts';
import type { WellState } from './state.ts';

export interface Occasion {
  why: Scene['why'];
  atMs: number;
  pump: number;
  cycle?: Cycle;
  day?: DayEvent;
}

export function look(well: WellState, occasion: Occasion, emit: Emit): void {
  lookAll(well.alarms, sceneOf(well, occasion), alarmEmit(well, emit));
}

/** Alarms come as lines already; they are ordered by their own `at`. */
export function alarmEmit(well: WellState, emit: Emit): (event: AlarmEvent) => void {
  return (event) => {
    if (event.state === 'raised' && well.day && !well.day.stood.includes(event.alarm))
      well.day.stood.push(event.alarm);
    emit({ event, orderMs: Date.parse(event.at) });
  };
}

function sceneOf(well: WellState, occasion: Occasion): Scene {
  const pumps = well.pumps.map((_, at) => pumpScene(well, at, occasion.atMs));
  return {
    atMs: occasion.atMs,
    why: occasion.why,
    well: wellScene(well, occasion.atMs),
    pump: pumps[occasion.pump]!,
    pumps,
    ...(occasion.cycle && { cycle: occasion.cycle }),
    ...(occasion.day && { day: occasion.day }),
  };
}

function wellScene(well: WellState, atMs: number): WellScene {
  return {
    card: well.card,
    minutes: well.minutes,
    days: well.days,
    dayStartedMs: well.day?.startMs ?? atMs,
    ...(well.expected.length > 0 && { expected: well.expected.map((e) => e.text).join('; ') }),
    nodes: well.nodes,
    channels: channelScenes(well, atMs),
    water: well.waterScene,
  };
}

function pumpScene(well: WellState, at: number, atMs: number): PumpScene {
  const pump = well.pumps[at]!;
  const record = well.records[at]!;
  const run = openRun(well, at, atMs);
  const { running, restReadings, idle } = pump.levels;
  return {
    index: at,
    card: well.card.pumps[at]!,
    ...(restReadings > 0 && { idleAmps: idle }),
    ...(running !== undefined && { runningAmps: running }),
    ...(run && { run }),
    ...(pump.restFromMs !== undefined && !run && { restSinceMs: pump.restFromMs }),
    cycles: record.cycles,
    startsToday: record.startsToday,
    ...(record.baseline && { baseline: record.baseline }),
    ...(record.pinned && { pinned: record.pinned }),
  };
}

const MINUTE_MS = 60_000;

function openRun(well: WellState, at: number, atMs: number): OpenRun | undefined {
  const { run } = well.pumps[at]!;
  if (!run) return undefined;
  const amps = runAmps(run, 0);
  const last = well.minutes[well.minutes.length - 1];
  const before = well.minutes[well.minutes.length - 2];
  const whole = before !== undefined && run.startedMs <= before.atMs - MINUTE_MS;
  const rise = whole && last?.kpa && before.kpa ? last.kpa.mean - before.kpa.mean : undefined;
  return {
    startedMs: run.startedMs,
    ranS: (atMs - run.startedMs) / 1000,
    ...(amps !== undefined && { amps }),
    ...(run.cutInKpa !== undefined && { cutInKpa: run.cutInKpa }),
    ...(rise !== undefined && { riseKpaPerMin: rise }),
    ...(run.highKpa !== undefined && { highKpa: run.highKpa }),
  };
}
