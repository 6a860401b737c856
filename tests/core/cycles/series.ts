import { recordReadingTime, newPace } from '../../../src/core/cycles/pace.ts';
import { newPressureBuffer, addPressure } from '../../../src/core/cycles/pressure-buffer.ts';
import type { Cycle } from '../../../src/core/cycles/cycle.ts';
import {
  handlePumpCurrent,
  advancePump,
  handlePumpMinute,
  handlePumpPressure,
  hasPendingEdge,
} from '../../../src/core/cycles/pump.ts';
import { newPump, type PumpState } from '../../../src/core/cycles/pump-state.ts';
import type { PumpStep } from '../../../src/core/cycles/pump.ts';

/**
 * A series in small notation: `'0x60 8.2x300'` is 60 readings of 0 and then 300 of 8.2; `-x5`
 * leaves five out (a dropout); `300..410x20` goes in even steps.
 */
function series(text: string): (number | undefined)[] {
  return text.split(/\s+/).flatMap((part) => {
    const found = /^(-|[\d.]+?)(?:\.\.([\d.]+))?(?:x(\d+))?$/.exec(part);
    if (!found) throw new Error(`Cannot read series: ${part}`);
    const [, from, to, count] = found;
    const n = Number(count ?? 1);
    if (from === '-') return Array.from({ length: n }, () => undefined);
    const step = to === undefined || n < 2 ? 0 : (Number(to) - Number(from)) / (n - 1);
    return Array.from({ length: n }, (_, i) => Number(from) + i * step);
  });
}

export interface Reported {
  steps: PumpStep[];
  cycles: Cycle[];
  pump: PumpState;
}

/**
 * Drives one pump with a series of amps and one of kPa at an even step; `lines` gives more lines.
 */
export function drive(options: {
  everyS?: number;
  amps: string;
  kpa?: string;
  lines?: string[];
  maxAmps?: number;
  /** Readings are means over the span before them, s. */
  overS?: number;
  noise?: (i: number) => number;
}): Reported {
  const { everyS = 1, maxAmps, noise = () => 0 } = options;
  const legs = [options.amps, ...(options.lines ?? [])].map(series);
  const kpa = options.kpa === undefined ? [] : series(options.kpa);
  const pressure = { buffer: newPressureBuffer(), pace: newPace() };
  const pump = newPump(0, maxAmps);
  pump.spanMs = (options.overS ?? 0) * 1000;
  const reported: Reported = { steps: [], cycles: [], pump };
  const hear = (step: PumpStep): void => {
    if (step.is === 'none') return;
    reported.steps.push(step);
    if (step.is === 'cycle') reported.cycles.push(step.cycle);
  };
  let nextMinuteMs = 60_000;
  const n = Math.max(legs[0]!.length, kpa.length);
  for (let i = 0; i < n; i++) {
    const tMs = Math.round(i * everyS * 1000);
    for (; nextMinuteMs <= tMs; nextMinuteMs += 60_000) {
      if (hasPendingEdge(pump)) hear(advancePump(pump, nextMinuteMs, pressure));
      hear(handlePumpMinute(pump, nextMinuteMs, pressure));
    }
    for (const [leg, amps] of legs.entries()) {
      const value = amps[i];
      if (value !== undefined) hear(handlePumpCurrent(pump, tMs, leg, value + noise(i), pressure));
    }
    const p = kpa[i];
    if (p !== undefined) {
      addPressure(pressure.buffer, tMs, p);
      recordReadingTime(pressure.pace, tMs);
      if (hasPendingEdge(pump)) hear(advancePump(pump, tMs, pressure));
      handlePumpPressure(pump, tMs, p, pressure.buffer);
    }
  }
  return reported;
}
