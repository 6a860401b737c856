import { describe, expect, test } from 'vitest';
import { runCorrectionS } from '../../../src/core/hydraulics/boundary.ts';
import { measureFill, airVolumeDisplaced, airVolumesOf } from '../../../src/core/hydraulics/fill.ts';
import { detectedKneeKpa, recordKnee, type Knee } from '../../../src/core/hydraulics/knee.ts';
import {
  newTrace,
  traceAfter,
  traceBefore,
  traceRun,
  type Trace,
} from '../../../src/core/hydraulics/trace.ts';

const OUTSIDE = 100;
const AIR = 80_000;
/** Boyle alone, so that the litres wanted can be written down. */
const boyle = { coolingS: 0, warmRatio: 1, atmosphereKpa: OUTSIDE };

interface Course {
  everyS?: number;
  startsAtS?: number;
  runsS?: number;
  pumpLPerS?: number;
  drawBefore?: number;
  drawInRun?: (s: number) => number;
  drawAfter?: number;
  /** Pressure lost between pump and gauge while it runs. */
  jumpKpa?: number;
}

/**
 * A fill from 100 s of rest on, made by adding litres up; `startS`, `stopS` are the readings at and
 * after which it is seen.
 */
function course(options: Course = {}): Trace {
  const {
    everyS = 1,
    startsAtS = 100,
    runsS = 80,
    pumpLPerS = 0.6,
    drawBefore = 0,
    drawInRun = () => 0,
    drawAfter = 0,
    jumpKpa = 0,
  } = options;
  const trace = newTrace(0, 0);
  let air = AIR / (276 + OUTSIDE);
  air -= drawBefore * startsAtS;
  const stopsAtS = startsAtS + runsS;
  for (let s = 0; s <= stopsAtS + 300; s += 0.1) {
    const running = s >= startsAtS && s < stopsAtS;
    if (s >= startsAtS && trace.startS === undefined && onReading(s, everyS)) trace.startS = s;
    if (s >= stopsAtS && trace.stopS === undefined && onReading(s, everyS)) trace.stopS = s;
    if (onReading(s, everyS)) {
      const kpa = AIR / air - OUTSIDE + (running ? jumpKpa : 0);
      if (trace.startS === undefined) traceBefore(trace, s * 1000, kpa, 0);
      else if (trace.stopS === undefined) traceRun(trace, s * 1000, kpa);
      else traceAfter(trace, s * 1000, kpa);
    }
    const draw = s < startsAtS ? drawBefore : running ? drawInRun(s - startsAtS) : drawAfter;
    air += (draw - (running ? pumpLPerS : 0)) * 0.1;
  }
  trace.startS = trace.startS! - trace.originMs / 1000;
  trace.stopS = trace.stopS! - trace.originMs / 1000;
  return trace;
}

function onReading(s: number, everyS: number): boolean {
  return Math.abs(s / everyS - Math.round(s / everyS)) < 0.05 / everyS;
}

describe('readFill', () => {
  test('gives the pump’s rate where nothing is drawn', () => {
    const fill = measureFill(course(), boyle)!;
    expect(fill.rate * AIR).toBeCloseTo(0.6, 2);
    expect(fill.lateRate! * AIR).toBeCloseTo(0.6, 2);
    expect(fill.slowingPerKpa).toBeCloseTo(0, 4);
  });
  test('gives it from the late half and the draw after, where a draw goes on', () => {
    const fill = measureFill(course({ drawInRun: () => 0.2, drawAfter: 0.2 }), boyle)!;
    expect(fill.lateRate! * AIR).toBeCloseTo(0.6, 2);
    expect(fill.rate * AIR).toBeCloseTo(0.4, 2);
    expect(fill.drawAfter! * AIR).toBeCloseTo(0.2, 2);
  });
  test('adds to the whole run what was drawn both before and after: a leak', () => {
    const fill = measureFill(course({ drawBefore: 0.05, drawInRun: () => 0.05, drawAfter: 0.05 }), boyle)!;
    expect(fill.rate * AIR).toBeCloseTo(0.6, 2);
  });
  test('does not add a draw that stopped within the run', () => {
    const fill = measureFill(course({ drawBefore: 0.3, drawInRun: (s) => (s < 10 ? 0.3 : 0) }), boyle)!;
    expect(fill.lateRate! * AIR).toBeCloseTo(0.6, 2);
    expect(fill.rate * AIR).toBeLessThan(0.61);
  });
  test('is not there for a run of a few readings', () => {
    expect(measureFill(course({ runsS: 3 }), boyle)).toBeUndefined();
  });
});

describe('roomGained', () => {
  test('times the air charge is what the tank took', () => {
    expect(airVolumeDisplaced(course(), boyle)! * AIR).toBeCloseTo(48, 0);
    expect(airVolumeDisplaced(course({ drawInRun: () => 0.2 }), boyle)! * AIR).toBeCloseTo(32, 0);
  });
});

describe('roomsOf', () => {
  test('follows the warmth through rest, run and rest', () => {
    const rooms = airVolumesOf(course(), { coolingS: 35, warmRatio: 1, atmosphereKpa: OUTSIDE });
    const plain = airVolumesOf(course(), boyle);
    // Squeezed air is warm and stands higher than Boyle: at a pressure it takes more room.
    expect(rooms.run.at(-1)!).toBeGreaterThan(plain.run.at(-1)! * 1.02);
    expect(rooms.after.at(-1)!).toBeCloseTo(plain.after.at(-1)!, 6);
  });
});

describe('runLongerByS', () => {
  test.each([
    [97.6, 77.4],
    [95.2, 84.7],
    [99.9, 80.1],
  ])('finds where a run begun at %d s and %d s long lies between readings 5 s apart', (startsAtS, runsS) => {
    const trace = course({ everyS: 5, startsAtS, runsS });
    const seenS = trace.stopS! - trace.startS!;
    const after = airVolumesOf(trace, boyle).after[0]!;
    const rate = 0.6 / AIR;
    const longer = runCorrectionS(trace, boyle, {
      startStepS: 5,
      stopStepS: 5,
      stopAirVolume: after,
      airVolumeNoise: 0.1 / AIR,
      rate,
    });
    expect(Math.abs(seenS + longer - runsS)).toBeLessThan(0.5);
  });
  test('changes nothing where readings come each second, or by exception', () => {
    expect(
      runCorrectionS(course(), boyle, { startStepS: 1, stopStepS: 1, airVolumeNoise: 1e-6, rate: 7e-6 }),
    ).toBe(0);
    expect(runCorrectionS(course(), boyle, { airVolumeNoise: 1e-6, rate: 7e-6 })).toBe(0);
  });
});

describe('noteKnee', () => {
  function knees(trace: Trace, lowKpa: number): Knee {
    const knee: Knee = [];
    for (let i = 0; i < 8; i++) recordKnee(knee, trace, { lowKpa, noiseKpa: 1 });
    return knee;
  }
  test('takes a jump at the start that has no match at the stop', () => {
    expect(detectedKneeKpa(knees(course(), 240))).toBeCloseTo(276, 0);
  });
  test('takes no jump for narrow plumbing, which drops by as much at the stop', () => {
    expect(detectedKneeKpa(knees(course({ jumpKpa: 30 }), 276))).toBeUndefined();
  });
  test('takes nothing for a start as ever, nor for a single jump', () => {
    expect(detectedKneeKpa(knees(course(), 274))).toBeUndefined();
    expect(detectedKneeKpa([300, 0, 0, 0, 0, 0, 0, 0])).toBeUndefined();
  });
});
