/** What the days that were learned from say is normal: medians and spreads pooled over them. */
import type { Baseline, Normal } from './baseline.ts';
import { longestRestS, longestRunS } from './habit.ts';
import type { Learning } from './learning.ts';
import { normalOf, quantile } from './robust.ts';

/** Of the runs of the days that slide: one odd one may be shorter. */
const SHORTEST_RUN_RANK = 0.05;

/**
 * What the healthy days so far say is normal. A quantity pinned by hand (n = 0) stays as it was
 * pinned.
 */
export function baselineOf(
  state: Learning,
  { atMs, date }: { atMs: number; date: string },
  manual: Baseline | undefined,
): Baseline {
  const pooled = (column: 'amps' | 'mid' | 'cutIn' | 'cutOut' | 'ran'): number[] =>
    state.recentDays.flatMap((slot) => slot[column]);
  const ran = pooled('ran');
  const low = quantile(ran, 0.25);
  const minRanS = quantile(ran, SHORTEST_RUN_RANK);
  const ranS = normalOf(ran);
  const longest = {
    runS: longestRunS(state.habit, date),
    restS: longestRestS(state.habit, date),
  };
  return {
    atMs,
    pinned: manual !== undefined,
    ...normalField('amps', pinnedByHand(manual?.amps) ?? normalOf(pooled('amps'))),
    ...(pinnedByHand(manual?.amps) === undefined && normalField('ampsAtMid', normalOf(pooled('mid')))),
    ...normalField('cutInKpa', pinnedByHand(manual?.cutInKpa) ?? normalOf(pooled('cutIn'))),
    ...normalField('cutOutKpa', pinnedByHand(manual?.cutOutKpa) ?? normalOf(pooled('cutOut'))),
    ...normalField('ranS', ranS),
    ...(low !== undefined && ranS && normalField('ranLowS', lowerQuartileNormal(ran, low))),
    ...(minRanS !== undefined && { ranMinS: minRanS }),
    ...normalField('cyclesPerDay', normalOf(state.habit.days.map(([, cycles]) => cycles))),
    ...normalField('ranSPerDay', normalOf(state.habit.days.map(([, , seconds]) => seconds))),
    ...(longest.runS > 0 && { longestRunS: longest.runS }),
    ...(longest.restS > 0 && { longestRestS: longest.restS }),
    ...(state.shape && state.shape.n >= 5 && { shape: shapeOf(state) }),
  };
}

/**
 * The lower quartile with the spread of the lower half: what water is drawn meanwhile only
 * lengthens runs.
 */
function lowerQuartileNormal(ran: readonly number[], low: number): Normal {
  const half = ran.filter((value) => value <= (quantile(ran, 0.5) ?? low));
  const spread = normalOf(half)?.spread ?? 0;
  return { median: low, spread, n: ran.length };
}

function shapeOf(state: Learning): NonNullable<Baseline['shape']> {
  const { everyS, amps, ampsSpread, kpa, kpaSpread } = state.shape!;
  return { everyS, amps: [...amps], ampsSpread: [...ampsSpread], kpa: [...kpa], kpaSpread: [...kpaSpread] };
}

function pinnedByHand(normal: Normal | undefined): Normal | undefined {
  return normal?.n === 0 ? normal : undefined;
}

type NormalName =
  'amps' | 'ampsAtMid' | 'cutInKpa' | 'cutOutKpa' | 'ranS' | 'ranLowS' | 'cyclesPerDay' | 'ranSPerDay';

/** The normal under its name, or nothing at all where it is not known: absent is not undefined. */
export function normalField(
  name: NormalName,
  normal: Normal | undefined,
): Partial<Pick<Baseline, NormalName>> {
  return normal === undefined ? {} : { [name]: normal };
}
