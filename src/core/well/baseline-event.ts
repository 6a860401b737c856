/** A normal as its line prints it. */
import type { BaselineEvent } from '../../../shared/api/events.ts';
import type { Baseline } from '../baseline/baseline.ts';
import { formatTime } from './emit.ts';

export function baselineEvent(well: string, pump: string, baseline: Baseline): BaselineEvent {
  const { amps, cutInKpa, cutOutKpa, ranS, cyclesPerDay } = baseline;
  return {
    event: 'baseline',
    well,
    pump,
    at: formatTime(baseline.atMs),
    ...(amps && { amps: round(amps.median, 1000), ampsSpread: round(amps.spread, 10_000) }),
    ...(cutInKpa && { cutInKpa: round(cutInKpa.median, 100) }),
    ...(cutOutKpa && { cutOutKpa: round(cutOutKpa.median, 100) }),
    ...(ranS && { ranS: round(ranS.median, 10) }),
    ...(cyclesPerDay && { cyclesPerDay: round(cyclesPerDay.median, 10) }),
    ...(baseline.pinned && { pinned: true as const }),
  };
}

function round(value: number, parts: number): number {
  return Math.round(value * parts) / parts;
}
