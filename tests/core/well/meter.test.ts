/** A flow meter's litres: over time, between two moments, in runs, and where it really stands. */
import { describe, expect, it } from 'vitest';
import {
  isBehindTank,
  litersAt,
  closeMeterDay,
  addMeterReading,
  closeMeterRun,
  newMeter,
  type Meter,
} from '../../../src/core/well/meter.ts';

const STEADY = { goodMs: 3000, covers: 'between' as const };

/** `'0x10 0.5x60'`: L/s for so many seconds each, a reading a second. */
function fed(text: string, meter = newMeter(), fromMs = 0): { meter: Meter; atMs: number } {
  let atMs = fromMs;
  for (const part of text.split(' ')) {
    const [lPerS, seconds] = part.split('x').map(Number);
    for (let i = 0; i < seconds!; i++, atMs += 1000) addMeterReading(meter, atMs, lPerS! / 1000, STEADY);
  }
  return { meter, atMs };
}

describe('meterReading', () => {
  it.each([
    ['nothing flows', '0x60', 0],
    ['half a litre a second for a minute, and the slopes at both ends', '0x10 0.5x60 0x10', 30],
    ['a meter that reads a little under nothing passes nothing', '-0.02x60', 0],
  ])('%s', (_name, text, litres) => {
    expect(fed(text).meter.flow.total).toBeCloseTo(litres, 6);
  });

  it('a value by exception stands until the next', () => {
    const meter = newMeter();
    const held = { goodMs: 90_000, covers: 'after' as const };
    for (const [s, lPerS] of [
      [0, 0],
      [10, 0.5],
      [70, 0],
    ] as const)
      addMeterReading(meter, s * 1000, lPerS / 1000, held);
    expect(meter.flow.total).toBeCloseTo(30, 6);
  });

  it('across a hole nothing is added, and nothing is said of what began before it', () => {
    const { meter } = fed('0.5x10');
    addMeterReading(meter, 600_000, 0.0005, STEADY);
    expect(meter.flow.total).toBeCloseTo(4.5, 6);
    expect(litersAt(meter, 5000)).toBeUndefined();
  });

  it('keeps a minute and no more', () => {
    const { meter, atMs } = fed('0.5x1000');
    expect(meter.flow.timeMs.length).toBeLessThan(130);
    expect(litersAt(meter, atMs - 45_500)).toBeCloseTo(0.5 * (1000 - 45.5), 6);
    expect(litersAt(meter, 1000)).toBeUndefined();
  });
});

describe('meterRun', () => {
  const run = (meter: Meter, startMs: number, stopMs: number): number | undefined =>
    closeMeterRun(meter, litersAt(meter, startMs), stopMs);

  it('gives what passed between start and stop', () => {
    const { meter } = fed('0x10 0.6x40 0x5');
    expect(run(meter, 9000, 51_000)).toBeCloseTo(24, 6);
  });

  it('a meter that counts between runs too stands behind the tank: of runs it says nothing', () => {
    const meter = newMeter();
    let atMs = 0;
    const litres: (number | undefined)[] = [];
    for (let i = 0; i < 6; i++) {
      const startMs = atMs + 30_000;
      ({ atMs } = fed('0.2x30 0.3x20 0x5', meter, atMs));
      litres.push(run(meter, startMs, startMs + 20_000));
    }
    expect(litres[0]).toBeCloseTo(5.85, 2);
    expect(litres.slice(4)).toEqual([undefined, undefined]);
    expect(isBehindTank(meter)).toBe(true);
  });

  it('a pump alone passes it: never behind the tank', () => {
    const meter = newMeter();
    let atMs = 0;
    for (let i = 0; i < 6; i++) {
      const startMs = atMs + 30_000;
      ({ atMs } = fed('0x30 0.3x20 0x5', meter, atMs));
      run(meter, startMs - 1000, startMs + 20_000);
    }
    expect(isBehindTank(meter)).toBe(false);
  });
});

describe('meterDay', () => {
  it('a whole day has a total, one with a tenth unmeasured has none, and each begins anew', () => {
    const { meter } = fed('0.1x1000');
    expect(closeMeterDay(meter, 1_000_000)).toBeCloseTo(99.9, 6);
    expect(closeMeterDay(meter, 1_000_000)).toBeUndefined();
  });
});
