/**
 * Air by season, day and hour: the coldest day about 20 January and the coldest hour about five, in
 * the northern half (common practice, no source). What differs from day to day comes from the seed.
 */
import { DAY_MS, HOUR_MS } from '../../../shared/units/duration.ts';
import { seeded } from '../model/random.ts';

const YEAR_DAYS = 365.25;
/** 20 January as a day since 1970, modulo a year. */
const COLDEST_DAY = 19;
const COLDEST_HOUR = 5;
/** A front brings some degrees for some days. */
const FRONT_C = 3;

export interface ClimatePlan {
  meanC: number;
  seasonC: number;
  dayC: number;
  /** The pump house is kept above this. */
  heatedToC: number;
}

export interface LocalTime {
  /** Whole local days since 1970. */
  day: number;
  hour: number;
  /** 0 is Sunday. */
  weekday: number;
}

export function localTime(tMs: number, utcOffsetH: number): LocalTime {
  const localMs = tMs + utcOffsetH * HOUR_MS;
  const day = Math.floor(localMs / DAY_MS);
  return { day, hour: (localMs - day * DAY_MS) / HOUR_MS, weekday: (((day + 4) % 7) + 7) % 7 };
}

export function seasonC(climate: ClimatePlan, day: number): number {
  const phase = (2 * Math.PI * (day - COLDEST_DAY)) / YEAR_DAYS;
  return climate.meanC - climate.seasonC * Math.cos(phase);
}

/** The mean of a day: what came yesterday still counts for half. */
export function dayC(climate: ClimatePlan, seed: number, day: number): number {
  let front = 0;
  for (let back = 3; back >= 0; back--)
    front = 0.5 * front + FRONT_C * seeded(seed * 7919 + day - back).normal();
  return seasonC(climate, day) + front;
}

export function outdoorC(climate: ClimatePlan, meanC: number, hour: number): number {
  return meanC - climate.dayC * Math.cos((2 * Math.PI * (hour - COLDEST_HOUR)) / 24);
}
