/**
 * Means over a long span, as an energy meter or a smart plug gives one a minute: amps come only
 * from spans that lie wholly within the run (contract, section 7).
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { drive } from './series.ts';

const SPAN_S = 60;
const AMPS = 8;

/** Means over whole minutes of a pump that runs in these seconds, `from` to `to`, as a series. */
function minuteMeans(runs: readonly (readonly [number, number])[], minutes: number): string {
  const means = Array.from({ length: minutes }, (_, at) => {
    const [fromS, toS] = [(at - 1) * SPAN_S, at * SPAN_S];
    const ranS = runs.reduce(
      (sum, [start, stop]) => sum + Math.max(0, Math.min(stop, toS) - Math.max(start, fromS)),
      0,
    );
    return ((AMPS * ranS) / SPAN_S).toFixed(3);
  });
  return means.join(' ');
}

function cyclesOf(runs: readonly (readonly [number, number])[], minutes = 40) {
  return drive({ everyS: SPAN_S, overS: SPAN_S, amps: minuteMeans(runs, minutes), maxAmps: 9.8 }).cycles;
}

describe('amps from means over a minute', () => {
  it.each<[string, [number, number], number | undefined]>([
    ['a run over three whole minutes and two parts', [330, 570], AMPS],
    ['one whole minute between two parts', [330, 450], AMPS],
    ['one whole minute, and too little of a second for a reading of the run', [2155, 2225], AMPS],
    ['two parts of a minute: no span lies within the run', [330, 390], undefined],
    ['a run within one minute', [310, 350], undefined],
    ['minutes that begin and end with the run', [300, 600], AMPS],
  ])('%s', (_name, run, amps) => {
    const cycles = cyclesOf([run]);
    expect(cycles).toHaveLength(1);
    expect(cycles[0]!.amps).toBe(amps);
  });

  it('are never a mean of running and resting, wherever runs begin and end', () => {
    const restAndRun = fc.tuple(fc.integer({ min: 150, max: 1500 }), fc.integer({ min: 60, max: 900 }));
    fc.assert(
      fc.property(fc.array(restAndRun, { minLength: 1, maxLength: 12 }), (parts) => {
        let nowS = 0;
        const runs = parts.map(([restS, ranS]): [number, number] => {
          const startS = nowS + restS;
          nowS = startS + ranS;
          return [startS, nowS];
        });
        const cycles = cyclesOf(runs, Math.ceil(nowS / SPAN_S) + 5);
        expect(cycles).toHaveLength(runs.length);
        for (const [at, { amps }] of cycles.entries()) {
          const [startS, stopS] = runs[at]!;
          const wholeSpans = Math.floor(stopS / SPAN_S) - Math.ceil(startS / SPAN_S);
          if (wholeSpans < 1) expect(amps).toBeUndefined();
          else if (amps !== undefined) expect(amps).toBeCloseTo(AMPS, 2);
          // All but the first and the last are known to be whole.
          if (wholeSpans >= 3) expect(amps).toBeDefined();
        }
      }),
      { numRuns: 300 },
    );
  });

  it('of spot readings are as they were', () => {
    const spot = drive({ everyS: 10, amps: '0x20 4 8x10 3 0x20' }).cycles[0]!;
    expect(spot.readings).toBe(12);
  });

  it('draw no shape from the parts', () => {
    const [cycle] = cyclesOf([[330, 570]]);
    expect(cycle!.shape?.amps.filter((amps) => amps !== null && amps !== AMPS)).toEqual([]);
    expect(cycle!.loadLoss).toBeUndefined();
  });

  it('leave cut-in and cut-out to the pressure beside them, which turned where the pump did', () => {
    // Pressure every 10 s, current every 60 s; the pump runs from 630 s to 800 s.
    const minute = (amps: number): string => `${amps} -x5`;
    const rest = Array.from({ length: 11 }, () => minute(0)).join(' ');
    const [cycle] = drive({
      everyS: 10,
      overS: SPAN_S,
      amps: `${rest} ${[4, 8, 8, 2.67, 0, 0].map(minute).join(' ')}`,
      kpa: '420..280x64 288..420x17 419..410x20',
      maxAmps: 9.8,
    }).cycles;
    expect(cycle).toMatchObject({ startedMs: 660_000, amps: AMPS });
    expect(cycle!.cutInKpa).toBeCloseTo(280, 0);
    expect(cycle!.cutOutKpa).toBeCloseTo(420, 0);
    expect(cycle!.riseDelayS).toBeUndefined();
  });
});
