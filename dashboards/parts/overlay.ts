/** Lays the last run over the usual one: both on one axis of seconds from the start, with the band in which runs usually lie. */
import type { UsualRun } from '../../shared/api/wells.ts';

/** Half width of the band in spreads: 19 of 20 values of a steady run lie within two. */
const BAND_SPREADS = 2;

type Line = readonly (number | null)[];

export interface Overlay {
  xs: number[];
  last: (number | null)[];
  low: (number | null)[];
  high: (number | null)[];
}

/** The steps are those of the longer one; the other is read between its own. */
export function overlay(
  run: { everyS: number; amps: Line; kpa: Line },
  usual: UsualRun | undefined,
  key: 'amps' | 'kpa',
): Overlay {
  const longest = Math.max(lengthS(run), usual ? lengthS(usual) : 0);
  const everyS = usual && lengthS(usual) > lengthS(run) ? usual.everyS : run.everyS;
  const xs = Array.from({ length: Math.round(longest / everyS) + 1 }, (_, i) => i * everyS);
  const edge = (side: -1 | 1) =>
    xs.map((s) => {
      const middle = usual ? readAt(usual[key], usual.everyS, s) : null;
      const spread = usual
        ? readAt(usual[key === 'amps' ? 'ampsSpread' : 'kpaSpread'], usual.everyS, s)
        : null;
      return middle === null || spread === null ? null : middle + side * BAND_SPREADS * spread;
    });
  return { xs, last: xs.map((s) => readAt(run[key], run.everyS, s)), low: edge(-1), high: edge(1) };
}

function lengthS({ everyS, amps }: { everyS: number; amps: Line }): number {
  return everyS * (amps.length - 1);
}

function readAt(line: Line, everyS: number, s: number): number | null {
  const place = s / everyS;
  const before = Math.floor(place + 1e-9);
  const [a, b] = [line[before] ?? null, line[before + 1] ?? null];
  const share = place - before;
  if (share < 1e-6) return a;
  return a === null || b === null ? null : a + (b - a) * share;
}

/** How much of the run lies outside the band, in words. */
export function outsideWords(last: Line, low: Line, high: Line): string {
  const judged = last
    .map((value, i) => [value, low[i] ?? null, high[i] ?? null] as const)
    .filter((three) => three.every((one) => one !== null));
  if (judged.length === 0) return 'No usual run to compare with.';
  const outside = judged.filter(
    ([value, least, most]) => (value ?? 0) < (least ?? 0) || (value ?? 0) > (most ?? 0),
  ).length;
  const share = Math.round((100 * outside) / judged.length);
  return share === 0
    ? 'Inside the usual band throughout.'
    : `Outside the usual band for ${share} % of the run.`;
}
