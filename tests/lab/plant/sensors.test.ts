import { describe, expect, it } from 'vitest';
import type { Condition, WellPlan } from '../../../src/lab/plant/params.ts';
import { endDays, newTruth, recordKpa, recordRun, recordWater } from '../../../src/lab/plant/truth.ts';
import { DAY, HOUR, house, median, MIDNIGHT, play, type Played } from './wells.ts';

const always =
  (wrong: Partial<Condition>): (() => Partial<Condition>) =>
  () =>
    wrong;
const resting = (over: Partial<WellPlan>, wrong: Partial<Condition> = {}, everyS = 1): Played =>
  play(house({ fixtures: [], schedule: always(wrong), ...over }), 2, everyS);
const running = (over: Partial<WellPlan>, wrong: Partial<Condition> = {}): Played['samples'] =>
  play(house({ schedule: always(wrong), ...over }), 12, 5).samples.filter((s) => s.amps[0]![0]! > 1);

/** Mean of the ten minutes that a reading falls in. */
function mean600(values: number[], at: number): number {
  const from = Math.floor(at / 600) * 600;
  const part = values.slice(from, from + 600);
  return part.reduce((a, b) => a + b, 0) / part.length;
}

describe('the transducer', () => {
  const kpa = resting({ transducer: { noiseKpa: 1, stepKpa: 0.1, offsetKpa: 5 } }).samples.map((s) => s.kpa!);
  const mean = kpa.reduce((a, b) => a + b, 0) / kpa.length;

  it('has its noise, a part of which wanders from reading to reading', () => {
    // Away from the slow fall of a cooling tank: the line through each ten minutes.
    const off = kpa.slice(3600).map((v, i, all) => v - mean600(all, i));
    const size = Math.sqrt(off.reduce((sum, v) => sum + v * v, 0) / off.length);
    expect(size).toBeGreaterThan(0.7);
    expect(size).toBeLessThan(1.3);
    const next = off.slice(1).reduce((sum, v, i) => sum + v * off[i]!, 0) / off.length / size ** 2;
    expect(next).toBeGreaterThan(0.1);
    expect(next).toBeLessThan(0.6);
  });

  it('has its offset and its step', () => {
    expect(mean).toBeGreaterThan(340);
    expect(kpa.every((v) => Math.abs(v * 10 - Math.round(v * 10)) < 1e-6)).toBe(true);
  });

  it.each([
    { name: 'out of its span', wrong: { transducerOut: 1 as const }, fault: 1 },
    { name: 'beyond its scale', wrong: {}, maxKpa: 200, fault: 2 },
  ])('says when it is $name', ({ wrong, maxKpa, fault }) => {
    const transducer = { noiseKpa: 1, stepKpa: 0.1, offsetKpa: 0, ...(maxKpa !== undefined && { maxKpa }) };
    const { samples } = resting({ transducer }, wrong);
    expect(samples.every((s) => s.kpa === undefined && s.kpaFault === fault)).toBe(true);
  });

  it('stands still when it is stuck', () => {
    expect(
      new Set(
        resting({}, { transducerStuck: true })
          .samples.slice(6)
          .map((s) => s.kpa),
      ).size,
    ).toBe(1);
  });

  it('feels the blow of a start and a stop', () => {
    const { samples, cycles } = play(house({ transducer: { noiseKpa: 0, stepKpa: 0, offsetKpa: 0 } }), 24);
    const steps = (atMs: number): number => {
      const at = samples.findIndex((s) => s.tMs >= atMs);
      return Math.abs(samples[at]!.kpa! - samples[at - 1]!.kpa!);
    };
    expect(median(cycles.map((c) => steps(c.stoppedMs)))).toBeGreaterThan(1);
    expect(steps(cycles[2]!.stoppedMs + 60_000)).toBeLessThan(1);
  });
});

describe('the clamp', () => {
  it.each([
    { name: 'reads by its gain', clamp: { gain: 0.5 }, wrong: {}, amps: 3.67 },
    { name: 'reads by a gain that slipped', clamp: {}, wrong: { clampGain: 0.9 }, amps: 6.6 },
    { name: 'is clipped at its scale', clamp: { maxA: 5 }, wrong: {}, amps: 5 },
    { name: 'reads what else is on the wire', clamp: {}, wrong: { otherAmps: 2 }, amps: 9.34 },
  ])('$name', ({ clamp, wrong, amps }) => {
    const plan = { clamp: { noiseA: 0.02, stepA: 0.01, gain: 1, maxA: 60, ...clamp } };
    const samples = running(plan, wrong).filter((s) => s.amps[0]![0]! > 2.5);
    const read = median(samples.map((s) => s.amps[0]![0]));
    expect(Math.abs(read / amps - 1)).toBeLessThan(0.02);
  });

  it('averages over a second, so that an edge shows a part; a start record does not', () => {
    const { samples, cycles } = play(house(), 24);
    const reading = (atMs: number): number => samples.find((s) => s.tMs >= atMs)!.amps[0]![0]!;
    for (const c of cycles.filter(({ stoppedMs }) => stoppedMs % 1000 !== 0)) {
      const part = (c.stoppedMs % 1000) / 1000;
      expect(Math.abs(reading(c.stoppedMs) / c.amps! - part)).toBeLessThan(0.1);
      expect(reading(c.stoppedMs + 1000)).toBeLessThan(0.2);
      expect(reading(c.startedMs + 100)).toBeLessThan(25);
    }
    expect(cycles.length).toBeGreaterThan(4);
  });

  it('reads nothing when it is off, and the run is true all the same', () => {
    const { samples, cycles } = play(house({ schedule: () => ({ clampOff: true }) }), 24, 2);
    expect(Math.max(...samples.map((s) => s.amps[0]![0]!))).toBeLessThan(0.2);
    expect(cycles.length).toBeGreaterThan(3);
  });
});

describe('the other sensors', () => {
  it('show the room: by the hour and the season, or as the story has it', () => {
    const temperatures = play(house({ fixtures: [] }), 24, 10).samples.map((s) => s.temperatureC);
    expect(Math.max(...temperatures) - Math.min(...temperatures)).toBeCloseTo(4, 0);
    expect(resting({}, { temperatureC: -3 }).samples.at(-1)!.temperatureC).toBe(-3);
  });

  it('show the volts, pulled down by the pump', () => {
    const { samples } = play(house(), 24, 2);
    const volts = (on: boolean): number =>
      median(samples.filter((s) => s.amps[0]![0]! > 6 === on).map((s) => s.volts[0]));
    expect(volts(false)).toBeCloseTo(230, -1);
    expect(volts(true)).toBeLessThan(volts(false));
  });

  it('show the level over the intake', () => {
    expect(resting({}).samples.at(-1)!.levelM).toBeCloseTo(26, 1);
  });
});

describe('the truth of a run', () => {
  const run = (everyMs: number, kpaAt: (s: number) => number): ReturnType<typeof newTruth> => {
    const truth = newTruth(1, MIDNIGHT);
    // Rest to 60.4 s, then a run of 40 s.
    for (let ms = 0; ms < 110_000; ms += 100) {
      if (ms % everyMs === 0) recordKpa(truth, ms, kpaAt(ms / 1000));
      const on = ms >= 60_400 && ms < 100_400;
      recordRun(truth, 0, {
        fromMs: ms,
        tMs: ms + 100,
        on,
        failedStart: false,
        shownAmps: ms < 61_000 ? 30 : 7 + (ms - 60_400) / 1e6,
        liftedL: 0.05,
        everyMs,
      });
    }
    return truth;
  };
  const falls = (s: number): number => (s < 60.4 ? 300 - s / 2 : 270 + (s - 60.4) * 3);

  // The contract's definitions of `amps`, `cutInKpa`, `cutOutKpa`.
  it('has amps after the first 2 s, cut-in on the line before it, cut-out as the highest middle of three', () => {
    const [cycle] = run(1000, falls).cycles;
    expect(cycle).toMatchObject({ pump: 0, startedMs: 60_400, stoppedMs: 100_400 });
    expect(cycle!.amps!).toBeCloseTo(7.02, 2);
    expect(cycle!.cutInKpa!).toBeCloseTo(269.5, 6);
    // Readings at 98, 99, 100 s: the middle one.
    expect(cycle!.cutOutKpa!).toBeCloseTo(falls(99), 6);
    expect(cycle!.deliveredL).toBeCloseTo(20, 6);
  });

  it('follows the line of three readings where they are far apart', () => {
    const [cycle] = run(5000, falls).cycles;
    // To the first reading of the run, and of the rest after it.
    expect(cycle!.cutInKpa!).toBeCloseTo(267.5, 6);
    expect(cycle!.cutOutKpa!).toBeCloseTo(falls(105), 6);
  });

  it('is one run across a bounce, and has no amps if it was vain', () => {
    const truth = newTruth(1, MIDNIGHT);
    const step = (ms: number, on: boolean): void =>
      recordRun(truth, 0, {
        fromMs: ms,
        tMs: ms + 100,
        on,
        failedStart: true,
        shownAmps: 40,
        liftedL: 0,
        everyMs: 1000,
      });
    for (let ms = 0; ms < 3000; ms += 100) step(ms, ms < 400 || (ms >= 700 && ms < 1000));
    expect(truth.cycles).toEqual([{ pump: 0, startedMs: 0, stoppedMs: 1000, deliveredL: 0 }]);
  });

  it('has the amps of a long run without keeping all of it', () => {
    const truth = newTruth(1, MIDNIGHT);
    for (let ms = 0; ms < 4 * HOUR; ms += 500)
      recordRun(truth, 0, {
        fromMs: ms,
        tMs: ms + 500,
        on: ms < 4 * HOUR - 5000,
        failedStart: false,
        shownAmps: ms < 2 * HOUR ? 8 : 6,
        liftedL: 0,
        everyMs: 1000,
      });
    expect(truth.cycles[0]!.amps).toBeGreaterThanOrEqual(6);
    expect(truth.open[0]).toBeUndefined();
  });

  it('puts down each local day', () => {
    const truth = newTruth(1, MIDNIGHT);
    for (let h = 1; h <= 60; h++) recordWater(truth, MIDNIGHT + h * HOUR, 10, 1);
    endDays(truth, MIDNIGHT + 60 * HOUR);
    expect(truth.days).toEqual([
      { startMs: MIDNIGHT, endMs: MIDNIGHT + DAY, usedL: 240, leakL: 24 },
      { startMs: MIDNIGHT + DAY, endMs: MIDNIGHT + 2 * DAY, usedL: 240, leakL: 24 },
    ]);
  });
});
