/**
 * What a watch sees: one plain picture of the well, made by the engine at each whole UTC minute, at
 * the end of each cycle and at the end of each local day. A watch reads it and its own memory,
 * nothing else. What is absent is named all the same, and undefined: so every picture has one
 * shape, and what reads it is compiled once.
 */
import type { DayEvent, Evidence } from '../../../shared/api/events.ts';
import type { WatchedKind } from '../../../shared/alarms/catalogue.ts';
import type { Baseline } from '../baseline/baseline.ts';
import type { Habit } from '../baseline/habit.ts';
import type { Card, PumpCard } from '../domain/card.ts';
import type { Cycle } from '../cycles/cycle.ts';
import type { Evaluation } from './evaluation.ts';

/**
 * Readings of one channel within one minute. `low` and `high` leave out the one lowest and highest
 * where there are five or more.
 */
export interface MinuteStats {
  n: number;
  mean: number;
  low: number;
  high: number;
  last: number;
}

/** One whole minute. A quantity that was not measured in it is absent. */
export interface MinuteScene {
  /** The minute's end. */
  atMs: number;
  kpa?: MinuteStats | undefined;
  temperatureC?: MinuteStats | undefined;
  levelM?: MinuteStats | undefined;
  storeM?: MinuteStats | undefined;
  pumps: MinutePump[];
}

export interface MinutePump {
  /** Seconds of the minute that the pump ran, and seconds covered by current readings. */
  ranS: number;
  heardS: number;
  /** Current of each line while running, and while at rest. */
  running: MinuteStats[];
  resting?: MinuteStats | undefined;
  volts?: MinuteStats[] | undefined;
  /** Pressure of this pump alone, where it has one of its own. */
  kpa?: MinuteStats | undefined;
  /** The switch's or float's call for water, as it last stood. */
  callsForWater?: boolean | undefined;
}

/** The run going on now. */
export interface OpenRun {
  startedMs: number;
  ranS: number;
  /** Median so far, after the first 2 s; absent in the first 2 s. */
  amps?: number | undefined;
  cutInKpa?: number | undefined;
  /**
   * Rise of pressure over the last minute of the run, kPa; absent in the first minute or without
   * pressure.
   */
  riseKpaPerMin?: number | undefined;
  /** Highest robust pressure so far. */
  highKpa?: number | undefined;
}

export interface PumpScene {
  index: number;
  card: PumpCard;
  /** Current level of rest and of running as found from the data; absent until found. */
  idleAmps?: number | undefined;
  runningAmps?: number | undefined;
  run?: OpenRun | undefined;
  /** When the last run stopped; absent before the first one. */
  restSinceMs?: number | undefined;
  /** Newest last, at most 40. */
  cycles: Cycle[];
  /** Starts in the running local day and in the last 60 min. */
  startsToday: number;
  /** Its pressure is its own (`p2/pressure`); the scene's minutes then hold that one. */
  hasOwnPressure?: true | undefined;
  baseline?: Baseline | undefined;
  /** What it does by hour, weekday and season. */
  habit: Habit;
  /** As a person pinned it, or as first learnt after the last new baseline: for slow faults. */
  pinned?: Baseline | undefined;
}

export interface WellScene {
  card: Card;
  /** Newest last, at most 30, no holes: a minute without readings has no quantities. */
  minutes: MinuteScene[];
  /**
   * Local days that were printed, newest last, at most 35; per pump and, for several pumps, the
   * whole well.
   */
  days: DayEvent[];
  /**
   * When the running local day began, when it ends (23 h or 25 h later where clocks are changed),
   * and its date (ISO).
   */
  dayStartedMs: number;
  dayEndsMs: number;
  date: string;
  /** A departure from habit that people announced is standing. */
  expected?: string | undefined;
  /** Nodes silent, without power or in conflict, since when. */
  nodes: { node: string; is: 'silent' | 'no-power' | 'conflict'; sinceMs: number; evidence?: Evidence }[];
  /**
   * Per channel of the well: seconds since its last good reading, and its last fault with its count
   * in a row.
   */
  channels: ChannelScene[];
  /** What hydraulics knows, where it knows it. */
  water: WaterScene;
}

export interface ChannelScene {
  channel: string;
  node: string;
  lastMs?: number | undefined;
  faultsInRow: number;
  fault?: 'low' | 'high' | 'bad' | undefined;
  /** Since when every reading has been the same number, where that is longer than an hour. */
  stuckSinceMs?: number | undefined;
  /**
   * The number that every reading has been for half a minute and more, the one before it, and the
   * time between the two; all in the contract's unit.
   */
  flat?: { sinceMs: number; value: number; before: number; stepMs: number } | undefined;
  /** Full scale, where the node said it. */
  fullScale?: number | undefined;
}

/** Water, where it can be told. Grows with src/core/hydraulics/. */
export interface WaterScene {
  /** Delivery in the last run against the baseline's at the same pressure, 1 = as ever. */
  deliveryRatio?: number | undefined;
  /**
   * Loss at rest of the last whole day, and one that has not ceased for so many hours
   * (src/core/hydraulics/). Without a tank on the card no litres.
   */
  dayLoss?: LossScene | undefined;
  continuousLoss?: (LossScene & { hours: number }) | undefined;
  /**
   * Air charge of the tank as the fills and falls show it, kPa gauge, and the card's or baseline's.
   */
  prechargeKpa?: number | undefined;
  normalPrechargeKpa?: number | undefined;
}

export interface LossScene {
  lPerH?: number | undefined;
  fallKpaPerH: number;
  /** Of what the pump delivers. */
  deliveryFraction?: number | undefined;
}

export interface Scene {
  atMs: number;
  trigger: 'minute' | 'cycle' | 'day';
  well: WellScene;
  /** The pump this watch is asked about. */
  pump: PumpScene;
  pumps: PumpScene[];
  /** The cycle or day that has just ended. */
  cycle?: Cycle | undefined;
  day?: DayEvent | undefined;
  /** The day's true length, s, with `day`. */
  dayS?: number | undefined;
  /**
   * Set by src/core/alarms/lifecycle/ and not by the engine: cycles, days and minutes from before
   * this moment are of another well, for watching, since a visit or a stretch out of service ended
   * then.
   */
  resetAtMs?: number | undefined;
  /**
   * Set by src/core/alarms/lifecycle/: when a person acknowledged the alarm of the watch that is
   * asked, where that is active.
   */
  acknowledgedMs?: number | undefined;
  /**
   * Set by src/core/alarms/lifecycle/ for a watch asked once a node: the news of the node that it
   * is asked about.
   */
  node?: WellScene['nodes'][number] | undefined;
}

/**
 * One watch: `evaluate` is asked whenever `triggers` names the scene's trigger. Its delays are the
 * catalogue's (shared/alarms/catalogue.ts).
 */
export interface Watch<Memory extends object = object> {
  alarm: WatchedKind;
  /**
   * Asked once a pump; once a well (then with the first pump as `pump`, and the alarm names no
   * pump); or once a node that there is news of (then with `node`, and the alarm names the node).
   */
  scope: 'pump' | 'well' | 'node';
  triggers: readonly Scene['trigger'][];
  /**
   * What it remembers before its first evaluation: plain data, kept for each pump or well. Left out
   * by a watch without memory.
   */
  initialMemory?: () => Memory;
  // A method, so that the list of watches can hold any memory: each gets the one that it made.
  evaluate(scene: Scene, memory: Memory): Evaluation;
}
