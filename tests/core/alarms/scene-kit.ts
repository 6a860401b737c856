/**
 * A well in small notation, for tables that read like a record. `play` runs all watches through the
 * alarms, as the engine does, and says what was told, one line an event: `12 min over-pressure
 * raised now switch-contacts-stuck`.
 *
 *   'rest 45psi x3'                 three whole minutes of rest at 45 psi
 *   'run 8A 62psi x2'               the pump runs (8/8/0A: three lines)
 *     `to 70psi` lets pressure move evenly to there;
 *     `off 30%`: in so much of the minute's readings it draws nothing
 *   'cycle 118s 8A 40-60psi every 30min x12 !no-cut-out'
 *                                   one reading a second, else `in 3 readings`
 *   'cycle 100s 8A 230V'            with the supply measured in it
 *   'cycle 100s 8A 30Wh'            with its energy
 *   'cycle 100s 8A starting 9s at 2.0'
 *                                   current of the start read until 9 s after it, at twice the
 *                                   running one
 *   'cycle 700s 8A broke at 640s to 50%'
 *                                   its current fell away then, to so much
 *   'day 12 cycles 1300s leak 400 use 900 heard 50% x3'
 *     `in 24 hours` of it runs began, else in the first eight
 *   also on rest and run: 238V  4m (level)  1.2st (store)  3C  calls  quiet (contact open)
 *     deaf (no current heard)
 *     `dips to 180V` for some seconds of the minute
 *   'silent barn', 'heard barn', 'no-power barn', 'conflict barn': news of a node
 *   'fault pressure low', 'stuck pressure 2h', 'mute pressure 20min', 'fine pressure':
 *     what the engine knows of a channel
 *   'fell pressure 50psi 5s': to nothing, within 5 s, and flat from now on
 */
import type { AlarmEvent, DayEvent } from '../../../shared/api/events.ts';
import type { AlarmKind } from '../../../shared/text/en/alarms/kinds.ts';
import {
  alarmAct,
  evaluateAll,
  newAlarms,
  type AlarmsState,
} from '../../../src/core/alarms/lifecycle/alarms.ts';
import type { Baseline, Normal } from '../../../src/core/baseline/baseline.ts';
import { newHabit, type Habit } from '../../../src/core/baseline/habit.ts';
import type { Act } from '../../../src/core/domain/act.ts';
import type { Card } from '../../../src/core/domain/card.ts';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';
import type {
  ChannelScene,
  MinuteScene,
  PumpScene,
  Scene,
  MinuteStats,
  WaterScene,
  WellScene,
} from '../../../src/core/alarms/scene.ts';

export const PSI = 6.894757293168;
export const T0 = Date.UTC(2026, 2, 2);
const MIN = 60_000;
const dateOf = (tMs: number): string => new Date(tMs).toISOString().slice(0, 10);
const DAY = 86_400_000;

/** 1 hp at 230 V on a 40/60 switch with a 44 gal tank. */
export function houseCard(change: Partial<Card> & { pump?: Partial<Card['pumps'][number]> } = {}): Card {
  const { pump, ...rest } = change;
  return {
    well: 'north-paddock',
    timeZone: 'UTC',
    altitudeM: 0,
    altitudeKnown: true,
    uses: ['house'],
    pumps: [
      { id: 'p1', control: 'pressure-switch', motorW: 746, volts: 230, phase: 1, maxAmps: 9.8, ...pump },
    ],
    switch: { cutInKpa: 40 * PSI, cutOutKpa: 60 * PSI },
    tank: { kind: 'captive-air', volumeL: 167, prechargeKpa: 38 * PSI },
    reads: [],
    ...rest,
  };
}

export const normal = (median: number, spread: number, n = 40): Normal => ({ median, spread, n });

/** What that house usually does: 8 A, fills of 100 s at least, 120 s as a rule, 12 a day. */
export function usualBaseline(change: Partial<Baseline> = {}): Baseline {
  return {
    atMs: T0,
    pinned: false,
    amps: normal(8, 0.05),
    cutInKpa: normal(40 * PSI, 2),
    cutOutKpa: normal(60 * PSI, 2),
    ranS: normal(120, 20),
    ranLowS: normal(100, 4),
    cyclesPerDay: normal(12, 3, 14),
    ranSPerDay: normal(1440, 300, 14),
    longestRunS: 400,
    longestRestS: 36_000,
    ...change,
  };
}

export interface KitOptions {
  card?: Card;
  baseline?: Baseline | null;
  water?: WaterScene;
  expected?: string;
  habit?: Habit;
  /** Only these kinds are listed; all where left out. */
  kinds?: AlarmKind[];
}

export interface Kit {
  atMs: number;
  alarms: AlarmsState;
  events: AlarmEvent[];
  play: (text: string) => Kit;
  act: (act: Act) => Kit;
  water: WaterScene;
  /** The lines told so far, in words. */
  said: () => string[];
}

export function play(text: string, options: KitOptions = {}): string[] {
  return kit(options).play(text).said();
}

export function kit(options: KitOptions = {}): Kit {
  const card = options.card ?? houseCard();
  const baseline = options.baseline === null ? undefined : (options.baseline ?? usualBaseline());
  const well: WellScene = {
    card,
    minutes: [],
    days: [],
    dayStartedMs: T0,
    dayEndsMs: T0 + DAY,
    date: dateOf(T0),
    nodes: [],
    channels: [],
    water: options.water ?? {},
    ...(options.expected !== undefined && { expected: options.expected }),
  };
  const pump: PumpScene = {
    index: 0,
    card: card.pumps[0]!,
    cycles: [],
    startsToday: 0,
    habit: options.habit ?? newHabit(),
    ...(baseline && { baseline, pinned: baseline }),
  };
  const self: Kit = {
    atMs: T0,
    alarms: newAlarms(),
    events: [],
    water: well.water,
    play: (text) => {
      for (const part of text.split('|')) step(part.trim());
      return self;
    },
    act: (act) => {
      alarmAct(self.alarms, act, self.atMs, (event) => self.events.push(event));
      return self;
    },
    said: () =>
      self.events
        .filter((event) => !options.kinds || options.kinds.includes(event.alarm))
        .map((event) => inWords(event)),
  };

  function look(why: Scene['trigger'], extra: Partial<Scene> = {}): void {
    const scene: Scene = { atMs: self.atMs, trigger: why, well, pump, pumps: [pump], ...extra };
    evaluateAll(self.alarms, scene, (event) => self.events.push(event));
  }

  function step(part: string): void {
    const [word = '', ...rest] = part.split(/\s+/);
    const times = Number(/\bx(\d+)\b/.exec(part)?.[1] ?? 1);
    if (word === 'rest' || word === 'run') for (let i = 0; i < times; i++) minute(word, part, i, times);
    else if (word === 'cycle') for (let i = 0; i < times; i++) cycle(part);
    else if (word === 'day') for (let i = 0; i < times; i++) day(part);
    else if (word === 'silent' || word === 'no-power' || word === 'conflict') {
      well.nodes = [...well.nodes, { node: rest[0]!, is: word, sinceMs: self.atMs }];
    } else if (word === 'heard') well.nodes = well.nodes.filter((node) => node.node !== rest[0]);
    else channel(word, rest);
  }

  function minute(word: string, part: string, at: number, times: number): void {
    self.atMs += MIN;
    const running = word === 'run';
    if (running && !pump.run) pump.run = { startedMs: self.atMs - MIN, ranS: 0, cutInKpa: cutInNow() };
    if (!running && pump.run) {
      delete pump.run;
      pump.restSinceMs = self.atMs - MIN;
    }
    pump.restSinceMs ??= self.atMs - MIN;
    const scene = minuteScene(part, running, self.atMs, (at + 1) / times);
    well.minutes.push(scene);
    if (well.minutes.length > 30) well.minutes.shift();
    if (pump.run) {
      pump.run.ranS = (self.atMs - pump.run.startedMs) / 1000;
      const amps = scene.pumps[0]?.running[0]?.mean;
      if (amps !== undefined) pump.run.amps = amps;
      const before = well.minutes[well.minutes.length - 2]?.kpa;
      if (scene.kpa && before && pump.run.ranS > 60) pump.run.riseKpaPerMin = scene.kpa.mean - before.mean;
      if (scene.kpa) pump.run.highKpa = Math.max(pump.run.highKpa ?? 0, scene.kpa.high);
    }
    if (self.atMs - well.dayStartedMs >= DAY) turnDay();
    look('minute');
  }

  function cutInNow(): number {
    return well.minutes[well.minutes.length - 1]?.kpa?.last ?? 40 * PSI;
  }

  function cycle(part: string): void {
    const ranS = Number(/([\d.]+)s\b/.exec(part)?.[1] ?? 100);
    const every = Number(/every ([\d.]+)min/.exec(part)?.[1] ?? 30) * MIN;
    const legs = /([\d./]+)A/.exec(part)?.[1]?.split('/').map(Number) ?? [];
    const band = /(-?[\d.]+)-([\d.]+)psi/.exec(part);
    const broke = /broke at ([\d.]+)s to (\d+)%/.exec(part);
    const long = /starting ([\d.]+)s at ([\d.]+)/.exec(part);
    const startedMs = self.atMs + Math.max(0, every - ranS * 1000);
    const made: Cycle = {
      pump: 0,
      startedMs,
      stoppedMs: startedMs + ranS * 1000,
      ranS,
      ...(pump.cycles.length > 0 && {
        restedS: (startedMs - pump.cycles[pump.cycles.length - 1]!.stoppedMs) / 1000,
      }),
      ...(legs[0] !== undefined && { amps: legs[0] }),
      ...(legs[1] !== undefined && { amps2: legs[1] }),
      ...(legs[2] !== undefined && { amps3: legs[2] }),
      ...number('volts', /(\d+)V/, part),
      readings: Number(/in (\d+) readings/.exec(part)?.[1] ?? Math.max(1, Math.round(ranS))),
      ...number('energyWh', /([\d.]+)Wh/, part),
      ...(broke && { loadLoss: { atS: Number(broke[1]), ratio: Number(broke[2]) / 100 } }),
      ...(long && { longStart: { durationS: Number(long[1]), ratio: Number(long[2]) } }),
      ...(band && { cutInKpa: Number(band[1]) * PSI, cutOutKpa: Number(band[2]) * PSI }),
      flags: [...part.matchAll(/!([a-z-]+)/g)].map((m) => m[1] as Cycle['flags'][number]),
    };
    self.atMs = made.stoppedMs;
    delete pump.run;
    pump.restSinceMs = made.stoppedMs;
    pump.startsToday++;
    pump.cycles.push(made);
    if (pump.cycles.length > 40) pump.cycles.shift();
    look('cycle', { cycle: made });
  }

  function turnDay(): void {
    well.dayStartedMs += DAY;
    well.dayEndsMs += DAY;
    well.date = dateOf(well.dayStartedMs);
  }

  function day(part: string): void {
    turnDay();
    pump.habit.lastDayHourMask = Number(/in (\d+) hours/.exec(part)?.[1] ?? 0) === 24 ? 0xffffff : 0xff;
    self.atMs = Math.max(self.atMs, well.dayStartedMs);
    const heard = Number(/heard (\d+)%/.exec(part)?.[1] ?? 100) / 100;
    const made: DayEvent = {
      event: 'day',
      well: card.well,
      date: dateOf(well.dayStartedMs - DAY),
      ...number('cycles', /(\d+) cycles/, part),
      ...number('ranS', /([\d.]+)s\b/, part),
      ...number('leakLPerDay', /leak ([\d.]+)/, part),
      ...number('usedL', /use ([\d.]+)/, part),
      heardS: heard * 86_400,
    };
    well.days.push(made);
    pump.startsToday = 0;
    look('day', { day: made, dayS: 86_400 });
  }

  function channel(word: string, [name = '', value = '', within = '']: string[]): void {
    const known = well.channels.find((one) => one.channel === name);
    const one: ChannelScene = known ?? { channel: name, node: 'barn', lastMs: self.atMs, faultsInRow: 0 };
    if (!known) well.channels.push(one);
    delete one.fault;
    delete one.stuckSinceMs;
    delete one.flat;
    one.faultsInRow = 0;
    const ms = Number(/^\d+/.exec(value)?.[0] ?? 0) * (value.endsWith('h') ? 60 : 1) * MIN;
    if (word === 'fault') {
      one.fault = value as 'low';
      one.faultsInRow = 60;
    } else if (word === 'fell') {
      const before = parseFloat(value) * PSI * 1000;
      one.flat = { sinceMs: self.atMs, value: 0, before, stepMs: parseFloat(within) * 1000 };
    } else if (word === 'stuck') one.stuckSinceMs = self.atMs - ms;
    else if (word === 'mute') one.lastMs = self.atMs - ms;
    else if (word === 'fine') one.lastMs = self.atMs + DAY;
    else throw new Error(`Cannot play: unknown word "${word}"`);
  }

  function inWords(event: AlarmEvent): string {
    const minutes = Math.round((Date.parse(event.at) - T0) / MIN);
    const when = minutes >= 2880 ? `day ${Math.floor(minutes / 1440)}` : `${minutes} min`;
    const what = event.state === 'cleared' ? '' : ` ${event.priority} ${event.causes?.[0]?.cause ?? '-'}`;
    return `${when} ${event.alarm} ${event.state}${what}`;
  }
  return self;
}

function number<Name extends string>(name: Name, pattern: RegExp, part: string): { [key in Name]?: number } {
  const found = pattern.exec(part)?.[1];
  return found === undefined ? {} : ({ [name]: Number(found) } as { [key in Name]?: number });
}

const dipped = (volts: number, low: number | undefined): MinuteStats => ({
  ...steady(volts),
  ...(low !== undefined && { low }),
});

const steady = (value: number, n = 60): MinuteStats => ({
  n,
  mean: value,
  low: value,
  high: value,
  last: value,
});

function offAndOn(amps: number, offPercent: number): MinuteStats {
  return offPercent === 0
    ? steady(amps)
    : { n: 60, mean: amps * (1 - offPercent / 100), low: 0, high: amps, last: amps };
}

function minuteScene(part: string, running: boolean, atMs: number, share: number): MinuteScene {
  const psi = /(-?[\d.]+)psi/.exec(part)?.[1];
  const to = /to (-?[\d.]+)psi/.exec(part)?.[1];
  const from = Number(psi);
  const kpa =
    psi === undefined ? undefined : (to === undefined ? from : from + (Number(to) - from) * share) * PSI;
  const legs = /([\d./]+)A/.exec(part)?.[1]?.split('/').map(Number) ?? [8];
  const volts = /(\d+)V/.exec(part)?.[1];
  const found = (pattern: RegExp): number | undefined => {
    const text = pattern.exec(part)?.[1];
    return text === undefined ? undefined : Number(text);
  };
  const level = found(/ (-?[\d.]+)m\b/);
  const store = found(/ ([\d.]+)st\b/);
  const celsius = found(/ (-?[\d.]+)C\b/);
  const deaf = /\bdeaf\b/.test(part);
  return {
    atMs,
    ...(kpa !== undefined && { kpa: steady(kpa) }),
    ...(level !== undefined && { levelM: steady(level) }),
    ...(store !== undefined && { storeM: steady(store) }),
    ...(celsius !== undefined && { temperatureC: steady(celsius) }),
    pumps: [
      {
        ranS: running && !deaf ? 60 : 0,
        heardS: deaf ? 0 : 60,
        running: running ? legs.map((amps) => offAndOn(amps, found(/ off (\d+)%/) ?? 0)) : [],
        ...(!running && !deaf && { resting: steady(0) }),
        ...(volts !== undefined && { volts: [dipped(Number(volts), found(/ dips to (\d+)V/))] }),
        ...(/\bcalls\b/.test(part) && { callsForWater: true }),
        ...(/\bquiet\b/.test(part) && { callsForWater: false }),
      },
    ],
  };
}
