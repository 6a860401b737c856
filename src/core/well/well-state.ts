/**
 * Everything that is remembered of one well, as plain data: it can be printed, compared, saved
 * between any two inputs and go on.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import { newAlarms, type AlarmsState } from '../alarms/lifecycle/alarms.ts';
import type { Baseline } from '../baseline/baseline.ts';
import { newLearning, type Learning } from '../baseline/learn.ts';
import { newSupplyEffect, type SupplyEffect } from '../baseline/supply.ts';
import type { Card } from '../domain/card.ts';
import type { Cycle } from '../cycles/cycle.ts';
import type { Pace } from '../cycles/pace.ts';
import { newPump, type PumpState } from '../cycles/pump-state.ts';
import { newPressureBuffer, type PressureBuffer } from '../cycles/pressure-buffer.ts';
import { newWaterState, type WaterState } from '../hydraulics/water-state.ts';
import type { MinuteScene, WaterScene, WellScene } from '../alarms/scene.ts';
import type { OpenDay } from './open-day.ts';
import { hasDrive, isPressurePump } from './tank-feeds.ts';
import type { Meter } from './meter.ts';
import type { RunningSum } from './running-sum.ts';
import { newMinuteSums, type MinuteSums } from './minute-sums.ts';

/** Gain and offset of a calibrated channel: true = gain x read + offset, in the channel's unit. */
export interface Correction {
  gain: number;
  offset: number;
}

/** What is remembered of one channel of the well, by its code. */
export interface ChannelState {
  code: number;
  pace: Pace;
  /** Last good reading and since when every reading has been that number. */
  lastMs: number;
  value: number;
  unchangedSinceMs: number;
  /**
   * The good reading before that number came, and how long before; absent until a second number
   * came.
   */
  previousValue?: number | undefined;
  stepMs?: number | undefined;
  faultsInRow: number;
  fault: 0 | 1 | 2 | 3;
  /**
   * The most that its sensor can show, as read and in the contract's unit, where its node said it;
   * looked up again each minute.
   */
  fullScale?: number | undefined;
  /**
   * The span that ends at a reading's time and that it is the mean of, where its node said one over
   * 2 s, ms; looked up as `fullScale` is.
   */
  spanMs?: number | undefined;
}

/** What is remembered of one pump beside its runs. */
export interface PumpRecord {
  /** Newest last. */
  cycles: Cycle[];
  learning: Learning;
  /** What the supply's voltage does to this motor's current; nothing where it is not measured. */
  supply: SupplyEffect;
  baseline?: Baseline | undefined;
  pinned?: Baseline | undefined;
  /**
   * What was normal before the last visit that began a new one, as it was then: for before and
   * after.
   */
  previousBaseline?: Baseline | undefined;
  callsForWater?: boolean | undefined;
  /**
   * The pump's own pressure and flow meter, where it has them, and what the meter had passed when
   * the run that goes on began.
   */
  ownPressureBuffer?: PressureBuffer | undefined;
  meter?: Meter | undefined;
  meterStartL?: number | undefined;
  /** Its power summed up, J, and what that was when the running cycle began. */
  energy?: RunningSum | undefined;
  energyStartJ?: number | undefined;
  startsToday: number;
  /** Up to when running and heard time were counted into minutes and days. */
  ranUntilMs: number;
  heardUntilMs: number;
}

export interface WellState {
  version: 6;
  card: Card;
  /** The well has been passed to this time; 0 before its first input. */
  nowMs: number;
  nextMinuteMs: number;
  pumps: PumpState[];
  records: PumpRecord[];
  pressureBuffer: PressureBuffer;
  water: WaterState;
  waterScene: WaterScene;
  minuteSums: MinuteSums;
  minutes: MinuteScene[];
  day?: OpenDay | undefined;
  /** Days that are over but wait for a run to end, oldest first. */
  pendingDays: OpenDay[];
  days: DayEvent[];
  channels: ChannelState[];
  /** By `node:channel`. */
  corrections: Record<string, Correction>;
  /**
   * What sensors can show at most, by `node:channel`, in the contract's unit; absent where no node
   * said it.
   */
  fullScales?: Record<string, number> | undefined;
  /** The span that each reading is the mean of, likewise, ms. */
  readingSpansMs?: Record<string, number> | undefined;
  /** Of them those of the channels read now, by channel code; looked up again each minute. */
  activeCorrections: Record<string, Correction>;
  nodes: WellScene['nodes'];
  expected: { text: string; untilMs: number }[];
  visitOpen: boolean;
  alarms: AlarmsState;
}

export const MAX_CYCLES = 40;
export const MAX_MINUTES = 30;
/** Local dates: a well with several pumps has several lines of each. */
export const MAX_DAYS = 35;

export function newPumpRecord(): PumpRecord {
  return {
    cycles: [],
    learning: newLearning(),
    supply: newSupplyEffect(),
    // Named from the start, so that every record has one shape.
    baseline: undefined,
    pinned: undefined,
    previousBaseline: undefined,
    callsForWater: undefined,
    ownPressureBuffer: undefined,
    meter: undefined,
    meterStartL: undefined,
    energy: undefined,
    energyStartJ: undefined,
    startsToday: 0,
    ranUntilMs: 0,
    heardUntilMs: 0,
  };
}

/** What hydraulics needs of the card. */
export function waterCardOf(card: Card): Parameters<typeof newWaterState>[0] {
  const ratedLPerS = card.pumps.find(isPressurePump)?.ratedLPerS;
  return {
    altitudeM: card.altitudeM,
    switch: card.switch,
    ...(card.tank && { tank: card.tank }),
    ...(ratedLPerS !== undefined && { ratedLPerS }),
  };
}

/** A well of which nothing was read yet. */
export function newWellState(card: Card): WellState {
  return {
    version: 6,
    card,
    nowMs: 0,
    nextMinuteMs: 0,
    pumps: card.pumps.map((pump, at) => newPump(at, pump.maxAmps, hasDrive(pump))),
    records: card.pumps.map(() => newPumpRecord()),
    pressureBuffer: newPressureBuffer(),
    water: newWaterState(waterCardOf(card)),
    waterScene: {},
    minuteSums: newMinuteSums(card.pumps.length),
    minutes: [],
    day: undefined,
    pendingDays: [],
    days: [],
    channels: [],
    corrections: {},
    fullScales: undefined,
    readingSpansMs: undefined,
    activeCorrections: {},
    nodes: [],
    expected: [],
    visitOpen: false,
    alarms: newAlarms(),
  };
}
