import { describe, expect, it } from 'vitest';
import { contactsMake, newControl } from '../../../src/lab/plant/controls.ts';
import type { ControlPlan } from '../../../src/lab/plant/params.ts';
import { DAY, from, HOUR, house, median, MIDNIGHT, play, psi, PUMP } from './wells.ts';

const SMALL = { kind: 'captive-air' as const, volumeL: 20, prechargeKpa: 240 };
const SHOWER = [{ fromMs: MIDNIGHT + HOUR, untilMs: MIDNIGHT + HOUR + 900_000, lPerS: 0.25 }];
const within = (samples: readonly { tMs: number }[], fromS: number, untilS: number): never[] | unknown[] =>
  samples.filter((s) => s.tMs >= MIDNIGHT + fromS * 1000 && s.tMs < MIDNIGHT + untilS * 1000);

describe('a drive', () => {
  const control: ControlPlan = { is: 'variable-speed', setKpa: 345, sleepBelowLPerS: 0.04, wakeKpa: 310 };
  const { samples, cycles } = play(house({ control, tank: SMALL, fixtures: [], draws: SHOWER }), 3);

  it('holds its pressure while water is drawn, at part speed', () => {
    const drawn = within(samples, 3600 + 120, 3600 + 880) as typeof samples;
    expect(median(drawn.map((s) => s.kpa))).toBeCloseTo(345, -1);
    const amps = median(drawn.map((s) => s.amps[0]![0]));
    expect(amps).toBeGreaterThan(1);
    expect(amps).toBeLessThan(0.8 * PUMP.fullFlowAmps);
  });

  it('starts softly and sleeps after a boost', () => {
    expect(cycles).toHaveLength(1);
    expect(Math.max(...samples.map((s) => s.amps[0]![0]!))).toBeLessThan(1.3 * PUMP.fullFlowAmps);
    expect(cycles[0]!.stoppedMs - (MIDNIGHT + HOUR + 900_000)).toBeLessThan(60_000);
    expect(cycles[0]!.cutOutKpa!).toBeGreaterThan(350);
  });

  it('draws more where more is drawn', () => {
    const more = [{ ...SHOWER[0]!, lPerS: 0.45 }];
    const harder = play(house({ control, tank: SMALL, fixtures: [], draws: more }), 3);
    expect(harder.cycles[0]!.amps!).toBeGreaterThan(1.15 * cycles[0]!.amps!);
  });

  it('does nothing without supply', () => {
    const dead = house({
      control,
      tank: SMALL,
      fixtures: [],
      draws: SHOWER,
      schedule: () => ({ circuitDead: true }),
    });
    expect(play(dead, 3).cycles).toEqual([]);
  });
});

describe('a constant-pressure valve', () => {
  const control: ControlPlan = {
    is: 'constant-pressure-valve',
    setKpa: 345,
    cutInKpa: 276,
    cutOutKpa: 414,
    minLPerS: 0.06,
  };

  it('throttles to its pressure while water is drawn, then fills slowly to cut-out', () => {
    const { samples, cycles } = play(house({ control, tank: SMALL, fixtures: [], draws: SHOWER }), 3);
    const drawn = within(samples, 3600 + 120, 3600 + 880) as typeof samples;
    const held = median(drawn.map((s) => s.kpa));
    expect(held).toBeGreaterThan(325);
    expect(held).toBeLessThan(348);
    expect(cycles).toHaveLength(1);
    expect(cycles[0]!.stoppedMs - (MIDNIGHT + HOUR + 900_000)).toBeGreaterThan(20_000);
    expect(cycles[0]!.cutOutKpa!).toBeCloseTo(414, -1);
  });
});

describe('a store', () => {
  it('is filled by its float between two depths', () => {
    const control: ControlPlan = { is: 'float', storeL: 5000, areaM2: 3, onM: 1, offM: 1.2 };
    const { samples, cycles, days } = play(house({ control }), 96, 10);
    const depths = samples.map((s) => s.storeM!).slice(-3 * 8640);
    expect(Math.min(...depths)).toBeGreaterThan(0.97);
    expect(Math.max(...depths)).toBeLessThan(1.27);
    expect(cycles.length).toBeGreaterThan(0);
    expect(days.every((d) => d.usedL > 200)).toBe(true);
  });

  it('is filled by the clock, and not over its top', () => {
    const control: ControlPlan = { is: 'timer', storeL: 3000, areaM2: 2, onHours: [6], forMin: 20 };
    const { samples, cycles } = play(house({ control, schedule: () => ({ storeLossLPerS: 0.004 }) }), 96, 10);
    expect(cycles).toHaveLength(4);
    expect(cycles.every((c) => (c.startedMs - MIDNIGHT) % DAY === 6 * HOUR)).toBe(true);
    expect(cycles.every((c) => c.stoppedMs - c.startedMs <= 20 * 60_000)).toBe(true);
    expect(Math.max(...samples.map((s) => s.storeM!))).toBeLessThan(1.5);
  });

  it('runs dry where its pump does not come, and no more is drawn', () => {
    const control: ControlPlan = { is: 'float', storeL: 1000, areaM2: 1, onM: 0.5, offM: 0.8 };
    const { samples, days } = play(house({ control, schedule: () => ({ circuitDead: true }) }), 96, 10);
    expect(samples.at(-1)!.storeM).toBeLessThan(0.01);
    expect(days[3]!.usedL).toBe(0);
  });
});

describe('several pumps', () => {
  it('take turns', () => {
    const { cycles } = play(house({ pumps: { how: 'alternating', pumps: [PUMP, PUMP] } }), 24, 5);
    expect(cycles.length).toBeGreaterThan(4);
    expect(cycles.every((c, i) => i === 0 || c.pump !== cycles[i - 1]!.pump)).toBe(true);
  });

  it('help one another where one is not enough', () => {
    const draws = [{ ...SHOWER[0]!, lPerS: 0.8 }];
    const pumps = { how: 'lag' as const, pumps: [PUMP, PUMP], lagBelowKpa: 255 };
    const { cycles, samples } = play(house({ pumps, fixtures: [], draws }), 3);
    expect(cycles.filter((c) => c.pump === 1)).toHaveLength(1);
    expect(cycles.filter((c) => c.pump === 1)[0]!.startedMs).toBeGreaterThan(cycles[0]!.startedMs);
    expect(samples[0]!.amps).toHaveLength(2);
  });
});

describe('three phases', () => {
  const pumps = { how: 'one' as const, pumps: [{ ...PUMP, phase: 3 as const, volts: 400 }] };

  it('show three lines, as uneven as they are', () => {
    const { samples } = play(house({ pumps, schedule: () => ({ unevenLegs: [1.1, 1, 0.9] }) }), 24, 5);
    const [a, , c] = samples.find((s) => s.amps[0]![1]! > 6 && s.amps[0]![1]! < 8)!.amps[0]!;
    expect(a! / c!).toBeCloseTo(1.1 / 0.9, 1);
    expect(samples[0]!.volts).toHaveLength(3);
  });

  it('lose one: a running motor goes on with more current until its overload opens, a resting one does not start', () => {
    // It runs for hours, so it is running when the line goes.
    const draws = [{ fromMs: MIDNIGHT + HOUR, untilMs: MIDNIGHT + 3 * HOUR, lPerS: 0.5 }];
    const story = from(MIDNIGHT + 2 * HOUR, { deadLeg: 2 as const });
    const { samples, cycles } = play(house({ pumps, fixtures: [], draws, schedule: story }), 4);
    const after = samples.find((s) => s.tMs === MIDNIGHT + 2 * HOUR + 10_000)!.amps[0]!;
    const before = samples.find((s) => s.tMs === MIDNIGHT + 2 * HOUR - 10_000)!.amps[0]!;
    expect(after[1]).toBeLessThan(0.2);
    expect(after[0]! / before[0]!).toBeCloseTo(1.732, 1);
    expect(cycles.at(-1)!.amps).toBeUndefined();
  });
});

describe('a low cut-off', () => {
  const control: ControlPlan = {
    is: 'pressure-switch',
    cutInKpa: psi(40),
    cutOutKpa: psi(60),
    jitterKpa: 1,
    lowCutOffKpa: psi(30),
  };
  const wrong = (tMs: number): Record<string, boolean> =>
    tMs < MIDNIGHT + 12 * HOUR
      ? { circuitDead: true }
      : { lowCutOffReset: tMs > MIDNIGHT + 18 * HOUR && tMs < MIDNIGHT + 19 * HOUR };

  it('stays open until somebody holds its lever', () => {
    const { cycles } = play(house({ control, schedule: wrong }), 24, 5);
    expect(cycles[0]!.startedMs).toBeGreaterThan(MIDNIGHT + 18 * HOUR);
    expect(cycles[0]!.startedMs).toBeLessThan(MIDNIGHT + 18 * HOUR + 60_000);
    expect(cycles.at(-1)!.cutOutKpa).toBeCloseTo(psi(60), -1);
  });
});

describe('a pump protector', () => {
  it('opens on low current and starts again by itself', () => {
    const pumps = {
      how: 'one' as const,
      pumps: [{ ...PUMP, protector: { belowAmps: 4.5, afterS: 5, restartS: 1200 } }],
    };
    const story = from(MIDNIGHT + 12 * HOUR, { levelFallM: 40 });
    const { cycles } = play(house({ pumps, schedule: story }), 24, 5);
    const vain = cycles.filter((c) => c.startedMs > MIDNIGHT + 14 * HOUR);
    expect(vain.length).toBeGreaterThan(10);
    const gaps = vain.slice(1).map((c, i) => (c.startedMs - vain[i]!.stoppedMs) / 1000);
    expect(median(gaps)).toBeCloseTo(1200, -1);
    expect(median(vain.map((c) => (c.stoppedMs - c.startedMs) / 1000))).toBeLessThan(15);
  });
});

describe('contacts', () => {
  it('bounce as often as they chatter, then rest', () => {
    const control = { ...newControl(300), closed: true, bounces: 2 };
    const made = [0.1, 0.4, 0.7, 1, 1.3, 5].map((movedS) => contactsMake({ ...control, movedS }));
    expect(made).toEqual([true, false, true, false, true, true]);
  });
});
