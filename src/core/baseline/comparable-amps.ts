/**
 * Amps made comparable: a pump draws less against more pressure, so a run that was held at the
 * bottom of the band by a garden hose shows more amps than one that filled the tank. What is
 * compared from run to run is the current at the middle of the pressure band, read off the run's
 * own shape, and where voltage is measured, brought to the usual supply (./supply.ts). Behind a
 * constant-pressure valve the middle of the band is held at any flow; there it is the top, over
 * what the valve holds, where only its bypass flows.
 */
import type { Cycle } from '../cycles/cycle.ts';
import type { Baseline } from './baseline.ts';
import { median } from './robust.ts';

/**
 * Where in the band points are compared, how far from there they may lie, as shares of the band,
 * and how many are wanted: a single one at the top may be the rush past it of a tank without air.
 */
const MID_BAND = { at: 0.5, near: 0.2, points: 1 };
const TOP_BAND = { at: 0.85, near: 0.15, points: 2 };
/** Points of inrush at the start of a run are not running current. */
const INRUSH_S = 2;

/**
 * Median amps of the points of the run's shape that lie near the middle of the pressure band;
 * undefined where the run has no shape with both, or never was there.
 */
export function ampsAtMid(cycle: Cycle, band: { cutInKpa: number; cutOutKpa: number }): number | undefined {
  const { shape } = cycle;
  if (!shape) return undefined;
  const { at: place, near: fraction, points } = cycle.throttled ? TOP_BAND : MID_BAND;
  const middle = band.cutInKpa + place * (band.cutOutKpa - band.cutInKpa);
  const near = Math.abs(band.cutOutKpa - band.cutInKpa) * fraction;
  const found: number[] = [];
  for (const [at, kpa] of shape.kpa.entries()) {
    const amps = shape.amps[at];
    if (kpa === null || amps === null || amps === undefined || at * shape.everyS < INRUSH_S) continue;
    // The last step and one that the run does not fill hold its end: a reading over the stop is a
    // mean of both.
    if (cycle.throttled && (at + 2) * shape.everyS > cycle.ranS) break;
    if (Math.abs(kpa - middle) <= near) found.push(amps);
  }
  const medianAmps = found.length < points ? undefined : median(found);
  return medianAmps === undefined ? undefined : medianAmps * (cycle.toNormalVolts ?? 1);
}

/**
 * Where there is no pressure, what can be made comparable is the run's own amps by the supply;
 * undefined where that is not measured either.
 */
export function ampsAtNormalVolts({ amps, toNormalVolts }: Cycle): number | undefined {
  return amps === undefined || toNormalVolts === undefined ? undefined : amps * toNormalVolts;
}

/**
 * Sets a cycle's `ampsAtMid` while it still has its shape, by the band of the baseline; without one
 * there is nothing to compare with.
 */
export function setAmpsAtMid(cycle: Cycle, baseline: Baseline | undefined): void {
  const { cutInKpa, cutOutKpa } = baseline ?? {};
  const amps =
    cutInKpa && cutOutKpa
      ? ampsAtMid(cycle, { cutInKpa: cutInKpa.median, cutOutKpa: cutOutKpa.median })
      : ampsAtNormalVolts(cycle);
  if (amps !== undefined) cycle.ampsAtMid = amps;
}
