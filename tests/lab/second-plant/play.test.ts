/** Whole wells of the second plant: what is put in comes out, and faults do what they should. */
import { describe, expect, it } from 'vitest';
import type { PlantSample } from '../../../src/lab/plant/params.ts';
import { timed } from '../../../src/lab/second-plant/habits.ts';
import type { Condition, SecondPlan } from '../../../src/lab/second-plant/plan.ts';
import { playSecond } from '../../../src/lab/second-plant/play.ts';
import { house, MIDNIGHT, PUMP } from './wells.ts';

const HOUR = 3_600_000;
const STORE = { areaM2: 2, overflowM: 2, inletM: 8 };

interface Played extends ReturnType<typeof playSecond> {
  samples: { tMs: number; amps: number[]; kpa: number; storeM?: number; volts: number; fault?: number }[];
}

function play(plan: SecondPlan, { hours = 24, everyS = 1 } = {}): Played {
  const samples: Played['samples'] = [];
  const keep = ({ tMs, amps, kpa, storeM, volts, kpaFault }: PlantSample): void => {
    samples.push({
      tMs,
      amps: amps.map((lines) => Math.max(...lines)),
      kpa: kpa ?? Number.NaN,
      volts: volts[0]!,
      ...(storeM !== undefined && { storeM }),
      ...(kpaFault !== undefined && { fault: kpaFault }),
    });
  };
  const span = { fromMs: MIDNIGHT, untilMs: MIDNIGHT + hours * HOUR, everyS };
  return { ...playSecond(plan, span, keep), samples };
}

const wrong = (condition: Partial<Condition>, fromH = 0): Partial<SecondPlan> => ({
  fault: (tMs) => (tMs >= MIDNIGHT + fromH * HOUR ? condition : {}),
});
const ALL_DAY = [timed({ lPerS: 0.2, hour: 0, forMin: 24 * 60, everyDays: 1 })];

describe('a house', () => {
  const { cycles, days, samples } = play(house(), { hours: 48 });

  it('keeps its water: what the pump lifts is used or stands in the tank', () => {
    const lifted = cycles.reduce((sum, { deliveredL }) => sum + deliveredL, 0);
    const used = days.reduce((sum, { usedL }) => sum + usedL, 0);
    expect(days).toHaveLength(2);
    expect(Math.abs(lifted - used)).toBeLessThan(75);
    expect(used).toBeGreaterThan(300);
  });

  it('runs between its switch points, and its amps lie under the plate', () => {
    for (const { cutInKpa, cutOutKpa, amps } of cycles) {
      expect(Math.abs(cutInKpa! - 276)).toBeLessThan(12);
      expect(Math.abs(cutOutKpa! - 414)).toBeLessThan(12);
      expect(amps).toBeGreaterThan(5);
      expect(amps).toBeLessThan(8);
    }
    expect(samples).toHaveLength(48 * 3600);
    expect(samples.every(({ kpa }) => kpa > 240 && kpa < 450)).toBe(true);
  });

  it('shows the inrush of a start for less than a second, and is silent at rest', () => {
    const fast = play(house({ meanS: 0.2 }), { hours: 12, everyS: 0.2 });
    const { startedMs, amps } = fast.cycles[1]!;
    const around = (fromMs: number, untilMs: number): number[] =>
      fast.samples
        .filter(({ tMs }) => tMs > startedMs + fromMs && tMs <= startedMs + untilMs)
        .map((sample) => sample.amps[0]!);
    expect(Math.max(...around(0, 600))).toBeGreaterThan(3 * amps!);
    expect(Math.max(...around(1000, 5000))).toBeLessThan(1.1 * amps!);
    expect(Math.max(...around(-5000, 0))).toBeLessThan(0.1);
  });

  it('is the same each time, and as much water is lifted at any rate of readings', () => {
    expect(play(house(), { hours: 12 }).cycles).toEqual(play(house(), { hours: 12 }).cycles);
    const lifted = (played: Played): number =>
      played.cycles.reduce((sum, { deliveredL }) => sum + deliveredL, 0);
    const seldom = play(house(), { everyS: 10 });
    const often = play(house({ meanS: 0.2 }), { everyS: 0.2 });
    expect(seldom.cycles.length).toBe(often.cycles.length);
    expect(lifted(seldom) / lifted(often)).toBeCloseTo(1, 1);
  });
});

describe('controls', () => {
  it('a float fills a store between its depths', () => {
    const { tank, ...plan } = house({
      control: { is: 'float', onM: 1.2, offM: 1.7, store: STORE },
      habits: ALL_DAY,
    });
    expect(tank).toBeDefined();
    const { samples, cycles } = play(plan, { everyS: 10 });
    const depths = samples.slice(1000).map(({ storeM }) => storeM!);
    expect(Math.min(...depths)).toBeGreaterThan(1.18);
    expect(Math.max(...depths)).toBeLessThan(1.72);
    expect(cycles.length).toBeGreaterThan(5);
  });

  it('a clock runs the pump at its hours', () => {
    const { tank, ...plan } = house({ control: { is: 'timer', onHours: [6, 18], forMin: 30, store: STORE } });
    expect(tank).toBeDefined();
    const { cycles } = play(plan, { everyS: 10 });
    expect(cycles.map(({ startedMs }) => Math.round((startedMs - MIDNIGHT) / HOUR))).toEqual([6, 18]);
    expect(cycles.map(({ startedMs, stoppedMs }) => Math.round((stoppedMs - startedMs) / 60_000))).toEqual([
      30, 30,
    ]);
  });

  it('a drive holds its pressure while water is drawn', () => {
    const plan = house({
      control: { is: 'variable-speed', setKpa: 380, wakeKpa: 350 },
      tank: { volumeL: 30, prechargeKpa: 260, polytropic: 1.2 },
      habits: ALL_DAY,
    });
    const { samples } = play(plan, { hours: 3 });
    const late = samples.slice(3600).map(({ kpa }) => kpa);
    expect(Math.min(...late)).toBeGreaterThan(340);
    expect(Math.max(...late)).toBeLessThan(420);
  });

  it('a constant-pressure valve holds the pump at what is drawn', () => {
    const plan = house({
      control: { is: 'constant-pressure-valve', cutInKpa: 276, cutOutKpa: 414, scatterKpa: 1, setKpa: 345 },
      habits: ALL_DAY,
    });
    const { samples } = play(plan, { hours: 4 });
    const late = samples.slice(7200);
    expect(late.every(({ kpa }) => Math.abs(kpa - 345) < 20)).toBe(true);
    expect(late.every(({ amps }) => amps[0]! > 3)).toBe(true);
  });

  it('two pumps take turns, or the second helps the first', () => {
    const twice = (how: 'alternate' | 'lead-lag'): SecondPlan =>
      house({
        pumps: { how, pumps: [PUMP, PUMP] },
        habits: [timed({ lPerS: 0.9, hour: 3, forMin: 60, everyDays: 1 }), ...ALL_DAY],
      });
    const turns = play(twice('alternate'), { hours: 3 }).cycles.map(({ pump }) => pump);
    expect(turns.length).toBeGreaterThan(6);
    expect(turns.every((pump, at) => at === 0 || pump !== turns[at - 1])).toBe(true);
    const helped = play(twice('lead-lag'), { hours: 6 }).cycles;
    expect(helped.some(({ pump }) => pump === 1)).toBe(true);
  });

  it('a protector stops a pump that runs light, and tries again', () => {
    const plan = house({
      protector: { lightRatio: 0.6, lightS: 5, restartS: 600 },
      ...wrong({ airLocked: true }),
      habits: ALL_DAY,
    });
    const { cycles } = play(plan, { hours: 6 });
    expect(cycles.length).toBeGreaterThan(10);
    expect(cycles.every(({ startedMs, stoppedMs }) => stoppedMs - startedMs < 12_000)).toBe(true);
  });

  it('a low-pressure cut-off waits for a hand after a time without power', () => {
    const plan = house({
      control: { is: 'pressure-switch', cutInKpa: 276, cutOutKpa: 414, scatterKpa: 1, lowCutOffKpa: 207 },
      fault: (tMs) => ({ supplyOn: tMs < MIDNIGHT + HOUR || tMs > MIDNIGHT + 4 * HOUR }),
      habits: ALL_DAY,
      metersVolts: true,
    });
    const { cycles, samples } = play(plan, { hours: 8 });
    expect(cycles.every(({ startedMs }) => startedMs <= MIDNIGHT + HOUR)).toBe(true);
    expect(samples[2 * 3600]!.volts).toBe(0);
    expect(samples[5 * 3600]!.volts).toBeGreaterThan(220);
  });
});

describe('faults', () => {
  const sound = play(house({ habits: ALL_DAY }), { hours: 6 });
  const flow = ({ cycles }: Played): number => {
    const { deliveredL, startedMs, stoppedMs } = cycles.at(-1)!;
    return (1000 * deliveredL) / (stoppedMs - startedMs);
  };

  it('worn rings and a shut valve take flow; rings leave the amps, the valve lowers them', () => {
    const worn = play(house({ habits: ALL_DAY, ...wrong({ ringLeak: 0.02 }) }), { hours: 6 });
    const shut = play(house({ habits: ALL_DAY, ...wrong({ valveLoss: 60 }) }), { hours: 6 });
    const amps = ({ cycles }: Played): number => cycles.at(-1)!.amps!;
    expect(flow(worn) / flow(sound)).toBeLessThan(0.85);
    expect(flow(shut) / flow(sound)).toBeLessThan(0.85);
    expect(Math.abs(amps(worn) / amps(sound) - 1)).toBeLessThan(0.015);
    expect(amps(shut) / amps(sound)).toBeLessThan(0.97);
  });

  it('an open breaker takes the voltage of the pump’s circuit', () => {
    const { samples } = play(house({ ...wrong({ breakerClosed: false }), metersVolts: true }), { hours: 1 });
    expect(samples.at(-1)!.volts).toBe(0);
  });

  it('a lost air charge shortens runs and rests', () => {
    const lost = play(house({ habits: ALL_DAY, ...wrong({ airRatio: 0.3 }) }), { hours: 6 });
    expect(lost.cycles.length).toBeGreaterThan(2.5 * sound.cycles.length);
  });

  it('a check valve that leaks empties the tank into the well with nobody drawing', () => {
    const quiet = play(house({ habits: [] }), { hours: 24, everyS: 10 });
    const leaks = play(house({ habits: [], ...wrong({ checkValveLeak: 0.002 }) }), { everyS: 10 });
    expect(quiet.cycles).toEqual([]);
    expect(leaks.cycles.length).toBeGreaterThan(5);
    expect(leaks.days[0]!.usedL).toBe(0);
  });

  it('a stuck rotor draws locked-rotor amps until its overload opens', () => {
    const { cycles, samples } = play(house({ habits: ALL_DAY, ...wrong({ rotorStuck: true }) }), {
      hours: 2,
    });
    expect(cycles.length).toBeGreaterThan(3);
    expect(cycles.every(({ startedMs, stoppedMs }) => stoppedMs - startedMs < 25_000)).toBe(true);
    expect(Math.max(...samples.map(({ amps }) => amps[0]!))).toBeGreaterThan(20);
  });

  it('a well that runs out gives air, and amps that fall and flutter', () => {
    const plan = house({
      habits: ALL_DAY,
      ...wrong({ levelFallM: 30 }, 2),
      showing: { is: 'level-under', sinceMs: MIDNIGHT, m: 0.35, forS: 60 },
    });
    const { samples, shownMs } = play(plan, { hours: 6 });
    const late = samples.filter(({ tMs }) => tMs > MIDNIGHT + 5 * HOUR).map(({ amps }) => amps[0]!);
    expect(Math.max(...late)).toBeLessThan(0.85 * sound.cycles.at(-1)!.amps!);
    expect(shownMs).toBeGreaterThanOrEqual(MIDNIGHT + 2 * HOUR);
  });

  it('welded contacts drive the pressure to the relief valve', () => {
    const plan = house({ reliefKpa: 480, ...wrong({ contacts: 'stuck-closed' }), habits: [] });
    const { samples, shownMs } = play(
      { ...plan, showing: { is: 'over-kpa', sinceMs: MIDNIGHT, kpa: 450, forS: 10 } },
      { hours: 2 },
    );
    expect(Math.max(...samples.map(({ kpa }) => kpa))).toBeGreaterThan(480);
    expect(shownMs).toBeLessThan(MIDNIGHT + HOUR);
  });

  it('a lost leg and unlike volts show in three lines', () => {
    const three = { ...PUMP, phase: 3 as const };
    const lines = (condition: Partial<Condition>): number[] => {
      let seen: number[] = [];
      const plan = house({ pumps: { how: 'one', pumps: [three] }, habits: ALL_DAY, ...wrong(condition, 1) });
      playSecond(plan, { fromMs: MIDNIGHT, untilMs: MIDNIGHT + 3 * HOUR, everyS: 5 }, ({ amps, tMs }) => {
        if (tMs > MIDNIGHT + 1.5 * HOUR && amps[0]![1]! > 1) seen = [...amps[0]!];
      });
      return seen;
    };
    expect(lines({ legLost: true })[0]).toBeLessThan(0.1);
    const [a, b, c] = lines({ lineRatios: [1.01, 1.01, 0.98] });
    expect(c! / ((a! + b! + c!) / 3)).toBeCloseTo(1 - 7 * 0.02, 1);
  });

  it('a transducer sticks or leaves its span, and contacts chatter', () => {
    const stuck = play(house({ habits: ALL_DAY, ...wrong({ transducer: 'stuck' }, 1) }), { hours: 3 });
    expect(new Set(stuck.samples.slice(3700).map(({ kpa }) => kpa)).size).toBe(1);
    const low = play(house(wrong({ transducer: 'low' }, 1)), { hours: 2 });
    expect(low.samples.filter(({ fault }) => fault === 1).length).toBe(3600);
    const chatter = play(house({ habits: ALL_DAY, ...wrong({ contacts: 'chatter' }) }), { hours: 6 });
    expect(chatter.cycles.length).toBeGreaterThan(4 * sound.cycles.length);
  });
});
