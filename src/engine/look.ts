/** Makes the picture that the watches look at, and says what alarms come of it. */
import type { AlarmEvent, DayEvent } from '../../shared/api/events.ts';
import { lookAll } from '../alarm/alarms.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { runAmps } from '../cycles/run.ts';
import type { MinuteScene, OpenRun, PumpScene, Scene, Spread, WellScene } from '../watch/scene.ts';
import { channelScenes } from './channels.ts';
import type { Emit } from './emit.ts';
import type { WellState } from './state.ts';

export interface Occasion {
  why: Scene['why'];
  atMs: number;
  pump: number;
  cycle?: Cycle;
  day?: DayEvent;
  dayS?: number;
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

export function sceneOf(well: WellState, occasion: Occasion): Scene {
  const pumps = well.pumps.map((_, at) => pumpScene(well, at, occasion.atMs));
  return {
    atMs: occasion.atMs,
    why: occasion.why,
    well: sceneFor(well, occasion),
    pump: pumps[occasion.pump]!,
    pumps,
    ...(occasion.cycle && { cycle: occasion.cycle }),
    ...(occasion.day && { day: occasion.day }),
    ...(occasion.dayS !== undefined && { dayS: occasion.dayS }),
  };
}

/** The well as this pump knows it: where it has a pressure of its own, the minutes hold that one. */
function sceneFor(well: WellState, { pump: at, atMs }: Occasion): WellScene {
  const scene = wellScene(well, atMs);
  return well.records[at]?.own ? { ...scene, minutes: scene.minutes.map((m) => minuteOf(m, at)) } : scene;
}

function minuteOf(minute: MinuteScene, at: number): MinuteScene {
  const { kpa: _wells, ...rest } = minute;
  const own = minute.pumps[at]?.kpa;
  return own ? { ...rest, kpa: own } : rest;
}

function wellScene(well: WellState, atMs: number): WellScene {
  return {
    card: well.card,
    minutes: well.minutes,
    days: well.days,
    dayStartedMs: well.day?.startMs ?? atMs,
    dayEndsMs: well.day?.endMs ?? atMs,
    date: well.day?.date ?? '',
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
    ...(record.own && { ownPressure: true as const }),
    habit: record.learning.habit,
    ...(record.baseline && { baseline: record.baseline }),
    ...(record.pinned && { pinned: record.pinned }),
  };
}

/** The pressure that this pump works against, in one minute. */
function kpaOf(well: WellState, at: number, minute: MinuteScene): Spread | undefined {
  return well.records[at]?.own ? minute.pumps[at]?.kpa : minute.kpa;
}

const MINUTE_MS = 60_000;

function openRun(well: WellState, at: number, atMs: number): OpenRun | undefined {
  const { run } = well.pumps[at]!;
  if (!run) return undefined;
  const amps = runAmps(run, 0);
  const last = well.minutes[well.minutes.length - 1];
  const before = well.minutes[well.minutes.length - 2];
  const whole = before !== undefined && run.startedMs <= before.atMs - MINUTE_MS;
  const now = last && kpaOf(well, at, last);
  const then = before && kpaOf(well, at, before);
  const rise = whole && now && then ? now.mean - then.mean : undefined;
  return {
    startedMs: run.startedMs,
    ranS: (atMs - run.startedMs) / 1000,
    ...(amps !== undefined && { amps }),
    ...(run.cutInKpa !== undefined && { cutInKpa: run.cutInKpa }),
    ...(rise !== undefined && { riseKpaPerMin: rise }),
    ...(run.highKpa !== undefined && { highKpa: run.highKpa }),
  };
}
