/** Makes the picture that the watches look at, and says what alarms come of it. */
import type { AlarmEvent, DayEvent } from '../../../shared/api/events.ts';
import { MINUTE_MS } from '../../../shared/units/duration.ts';
import { evaluateAll } from '../alarms/lifecycle/alarms.ts';
import type { Cycle } from '../cycles/cycle.ts';
import { runMedianAmps } from '../cycles/run.ts';
import type { MinuteScene, OpenRun, PumpScene, Scene, MinuteStats, WellScene } from '../alarms/scene.ts';
import { channelScenes } from './channels.ts';
import type { Emit } from './emit.ts';
import { forgetAlarmDays } from './forget-alarm-days.ts';
import type { WellState } from './well-state.ts';

export interface EvaluationTrigger {
  trigger: Scene['trigger'];
  atMs: number;
  pump: number;
  cycle?: Cycle;
  day?: DayEvent;
  dayS?: number;
}

export function evaluateWatches(well: WellState, occasion: EvaluationTrigger, emit: Emit): void {
  evaluateAll(well.alarms, sceneOf(well, occasion), alarmEmitter(well, emit));
}

/** Alarms come as lines already; they are ordered by their own `at`. */
export function alarmEmitter(well: WellState, emit: Emit): (event: AlarmEvent) => void {
  return (event) => {
    const teachesNothing = event.state !== 'cleared' && event.priority !== 'note';
    if (teachesNothing && well.day && !well.day.alarmsActive.includes(event.alarm))
      well.day.alarmsActive.push(event.alarm);
    emit({ event, orderMs: Date.parse(event.at) });
    if (event.state === 'raised')
      for (const at of well.records.keys()) forgetAlarmDays(well, at, Date.parse(event.at), emit);
  };
}

/**
 * Made at each look of each minute, so every field is named and none is spread: all scenes then
 * have one shape.
 */
export function sceneOf(well: WellState, occasion: EvaluationTrigger): Scene {
  const { atMs, trigger, cycle, day, dayS } = occasion;
  const pumps: PumpScene[] = [];
  for (let at = 0; at < well.pumps.length; at++) pumps.push(pumpScene(well, at, atMs));
  return {
    atMs,
    trigger,
    well: wellSceneFor(well, occasion),
    pump: pumps[occasion.pump]!,
    pumps,
    cycle,
    day,
    dayS,
    resetAtMs: undefined,
    acknowledgedMs: undefined,
    node: undefined,
  };
}

/**
 * The well as this pump knows it: where it has a pressure of its own, the minutes hold that one.
 */
function wellSceneFor(well: WellState, { pump: at, atMs }: EvaluationTrigger): WellScene {
  const scene = wellScene(well, atMs);
  return well.records[at]?.ownPressureBuffer
    ? { ...scene, minutes: scene.minutes.map((m) => ownPressureMinute(m, at)) }
    : scene;
}

function ownPressureMinute(minute: MinuteScene, at: number): MinuteScene {
  const { kpa: _wells, ...rest } = minute;
  const own = minute.pumps[at]?.kpa;
  return own ? { ...rest, kpa: own } : rest;
}

function wellScene(well: WellState, atMs: number): WellScene {
  const { card, minutes, days, day, nodes, expected } = well;
  return {
    card,
    minutes,
    days,
    dayStartedMs: day?.startMs ?? atMs,
    dayEndsMs: day?.endMs ?? atMs,
    date: day?.date ?? '',
    expected: expected.length > 0 ? expected.map((e) => e.text).join('; ') : undefined,
    nodes,
    channels: channelScenes(well, atMs),
    water: well.waterScene,
  };
}

function pumpScene(well: WellState, at: number, atMs: number): PumpScene {
  const pump = well.pumps[at]!;
  const { cycles, startsToday, ownPressureBuffer, learning, baseline, pinned } = well.records[at]!;
  const run = openRunScene(well, at, atMs);
  const { running, restReadings, idle } = pump.levels;
  return {
    index: at,
    card: well.card.pumps[at]!,
    idleAmps: restReadings > 0 ? idle : undefined,
    runningAmps: running,
    run,
    restSinceMs: run ? undefined : pump.restFromMs,
    cycles,
    startsToday,
    hasOwnPressure: ownPressureBuffer ? true : undefined,
    baseline,
    habit: learning.habit,
    pinned,
  };
}

/** The pressure that this pump works against, in one minute. */
function kpaOf(well: WellState, at: number, minute: MinuteScene): MinuteStats | undefined {
  return well.records[at]?.ownPressureBuffer ? minute.pumps[at]?.kpa : minute.kpa;
}

function openRunScene(well: WellState, at: number, atMs: number): OpenRun | undefined {
  const { run } = well.pumps[at]!;
  if (!run) return undefined;
  const amps = runMedianAmps(run, 0);
  const last = well.minutes[well.minutes.length - 1];
  const before = well.minutes[well.minutes.length - 2];
  const whole = before !== undefined && run.startedMs <= before.atMs - MINUTE_MS;
  const now = last && kpaOf(well, at, last);
  const then = before && kpaOf(well, at, before);
  const rise = whole && now && then ? now.mean - then.mean : undefined;
  return {
    startedMs: run.startedMs,
    ranS: (atMs - run.startedMs) / 1000,
    amps,
    cutInKpa: run.cutInKpa,
    riseKpaPerMin: rise,
    highKpa: run.highKpa,
  };
}
