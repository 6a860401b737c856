/**
 * Lays the last run over the usual one: both on one axis of seconds from the start, with the band
 * in which runs usually lie.
 */
import type { NormalRun } from '../../../shared/api/wells.ts';
import { texts } from './texts.ts';

/** Half width of the band in spreads: 19 of 20 values of a steady run lie within two. */
const BAND_SPREADS = 2;

type Values = readonly (number | null)[];

export interface Overlay {
  xs: number[];
  run: (number | null)[];
  low: (number | null)[];
  high: (number | null)[];
}

/** The steps are those of the longer one; the other is read between its own. */
export function overlay(
  run: { everyS: number; amps: Values; kpa: Values },
  normal: NormalRun | undefined,
  key: 'amps' | 'kpa',
): Overlay {
  const longest = Math.max(durationS(run), normal ? durationS(normal) : 0);
  const everyS = normal && durationS(normal) > durationS(run) ? normal.everyS : run.everyS;
  const xs = Array.from({ length: Math.round(longest / everyS) + 1 }, (_, i) => i * everyS);
  const edge = (side: -1 | 1) =>
    xs.map((s) => {
      const middle = normal ? interpolate(normal[key], normal.everyS, s) : null;
      const spread = normal
        ? interpolate(normal[key === 'amps' ? 'ampsSpread' : 'kpaSpread'], normal.everyS, s)
        : null;
      return middle === null || spread === null ? null : middle + side * BAND_SPREADS * spread;
    });
  return { xs, run: xs.map((s) => interpolate(run[key], run.everyS, s)), low: edge(-1), high: edge(1) };
}

function durationS({ everyS, amps }: { everyS: number; amps: Values }): number {
  return everyS * (amps.length - 1);
}

function interpolate(values: Values, everyS: number, s: number): number | null {
  const position = s / everyS;
  const before = Math.floor(position + 1e-9);
  const [a, b] = [values[before] ?? null, values[before + 1] ?? null];
  const fraction = position - before;
  if (fraction < 1e-6) return a;
  return a === null || b === null ? null : a + (b - a) * fraction;
}

/** How much of the run lies outside the band, in words. */
export function outsideWords(last: Values, low: Values, high: Values): string {
  const compared = last
    .map((value, i) => [value, low[i] ?? null, high[i] ?? null] as const)
    .filter((three) => three.every((one) => one !== null));
  if (compared.length === 0) return texts().noNormalRun;
  const outside = compared.filter(
    ([value, min, max]) => (value ?? 0) < (min ?? 0) || (value ?? 0) > (max ?? 0),
  ).length;
  const percent = Math.round((100 * outside) / compared.length);
  return percent === 0 ? texts().insideBand : texts().outsideBand(percent);
}
