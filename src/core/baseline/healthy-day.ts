/**
 * Could this day have been a healthy one? Judged by physical limits alone, never by the baseline
 * that it would teach: a well that was ill from its first day must not become its own measure. The
 * answer is a reason, since "no normal found here" is told with it.
 */
import type { DayEvent } from '../../../shared/api/events.ts';
import { DAY_S } from '../../../shared/units/duration.ts';
import type { Card, PumpCard } from '../domain/card.ts';
import { OVER_PLATE_RATIO } from '../domain/motor-tables.ts';
import { minFillS } from './min-fill-time.ts';
import { startsLimit } from './motor-starts-limit.ts';
import { median } from './robust.ts';
import type { NotLearned } from './reason-text.ts';
import type { Learning } from './learning.ts';

/**
 * Under 95 % of a day heard teaches nothing (contract, section 6): of its true length, which is 23
 * h or 25 h where clocks are changed.
 */
const MIN_HEARD_FRACTION = 0.95;
/**
 * Runs shorter than this do not cool a motor, whatever its size, where the card knows no tank as
 * small. Common practice asks for a minute: shorter ones are told (short-cycling), and a day on
 * which that was active teaches nothing. This bound is for a card that knows the tank.
 */
const MIN_RUN_S = 8;
/**
 * A tank that this pump can fill in under 40 s is too small for it, and many starts are its nature:
 * the trade sizes tanks for runs of a minute.
 */
const SMALL_TANK_FILL_S = 40;
/**
 * A pump with a pressure switch that rests less than a tenth of the day is held by a leak or does
 * not reach cut-out.
 */
const MAX_RUN_FRACTION = 0.9;
/** 20 L/h: an EPA "bad leak" is 90 gal/day (14 L/h); a day with more is no measure of this well. */
const MAX_LEAK_L_PER_DAY = 480;
/**
 * A check of the air charge: the trade asks for 2 psi under cut-in (Water Systems Council,
 * "Pressure Tanks", 2007). 3 psi over it is 5 psi wrong.
 */
const MAX_PRECHARGE_OVER_CUT_IN_KPA = 21;
const MIN_PRECHARGE_RATIO = 0.5;
/**
 * Of the least time that a fill can take: half of it leaves room for a card that is off by a tank's
 * size.
 */
const MIN_FILL_RATIO = 0.5;

export type Health =
  | { is: 'healthy' }
  /** Says nothing of the well: not heard enough, or nothing to judge. */
  | { is: 'unheard'; because: NotLearned }
  | { is: 'unhealthy'; because: NotLearned };

export interface DayFacts {
  day: DayEvent;
  /** The day's true length, s. */
  dayS: number;
  card: Card;
  pump: PumpCard;
  /** Air charge of the tank as the fills show it, kPa gauge, where hydraulics could tell. */
  prechargeKpa?: number | undefined;
}

export function judgeDay(state: Learning, facts: DayFacts): Health {
  const heard = (facts.day.heardS ?? 0) / facts.dayS;
  if (heard < MIN_HEARD_FRACTION) {
    const heardPercent = Math.round(100 * heard);
    return { is: 'unheard', because: { reason: 'not-heard', figures: { heardPercent } } };
  }
  const because = unhealthyReason(state, facts) ?? tankFaultReason(state, facts.card, facts.prechargeKpa);
  return because === undefined ? { is: 'healthy' } : { is: 'unhealthy', because };
}

function unhealthyReason(state: Learning, facts: DayFacts): NotLearned | undefined {
  const { day, card, pump, dayS } = facts;
  if (
    pump.maxAmps !== undefined &&
    day.ampsMedian !== undefined &&
    day.ampsMedian > OVER_PLATE_RATIO * pump.maxAmps
  ) {
    return { reason: 'amps-over-maximum', figures: { amps: day.ampsMedian, maxAmps: pump.maxAmps } };
  }
  const short = shortRunsReason(state, facts);
  if (short !== undefined) return short;
  if (pump.control === 'pressure-switch' && (day.ranS ?? 0) > MAX_RUN_FRACTION * dayS)
    return { reason: 'hardly-stops' };
  const leakL = (day.leakLPerDay ?? 0) - DAY_S * (card.continuousDrawLPerS ?? 0);
  if (leakL > MAX_LEAK_L_PER_DAY && !card.uses.includes('irrigation') && !card.uses.includes('stock')) {
    return { reason: 'bad-leak', figures: { leakLPerDay: leakL } };
  }
  return undefined;
}

/**
 * Too many starts, or runs too short. A tank that its card says is small makes many short runs from
 * the first day to the last: that is normal for this well, though not good for its motor, which
 * src/core/alarms/water/starts-over-limit.ts says.
 */
function shortRunsReason(state: Learning, { day, card, pump }: DayFacts): NotLearned | undefined {
  const cycles = day.cycles ?? 0;
  const medianRanS = medianOf(state, 4);
  const pressure = pump.control === 'pressure-switch';
  const minimumS = pressure && cycles >= 5 ? minFillOf(state, card, pump) : undefined;
  if (minimumS !== undefined && medianRanS !== undefined) {
    if (medianRanS < MIN_FILL_RATIO * minimumS) {
      const tankL = card.tank?.volumeL ?? 0;
      return { reason: 'runs-too-short-for-tank', figures: { ranS: medianRanS, tankL, minS: minimumS } };
    }
    if (minimumS < SMALL_TANK_FILL_S) return undefined;
  }
  const limit = startsLimit(pump).perDay;
  if (cycles > limit) return { reason: 'too-many-starts', figures: { starts: cycles, max: limit } };
  if (pressure && cycles >= 20 && medianRanS !== undefined && medianRanS < MIN_RUN_S) {
    return { reason: 'runs-too-short', figures: { ranS: medianRanS } };
  }
  return undefined;
}

function minFillOf(state: Learning, card: Card, pump: PumpCard): number | undefined {
  const cutInKpa = medianOf(state, 2);
  const cutOutKpa = medianOf(state, 3);
  return cutInKpa === undefined || cutOutKpa === undefined
    ? undefined
    : minFillS(card, pump, { cutInKpa, cutOutKpa });
}

function medianOf(state: Learning, column: 2 | 3 | 4): number | undefined {
  return median(state.today.map((sample) => sample[column]).filter((value) => value !== null));
}

function tankFaultReason(
  state: Learning,
  card: Card,
  prechargeKpa: number | undefined,
): NotLearned | undefined {
  if (prechargeKpa === undefined || card.tank?.kind === 'plain') return undefined;
  const cutIn = medianOf(state, 2);
  if (cutIn !== undefined && prechargeKpa > cutIn + MAX_PRECHARGE_OVER_CUT_IN_KPA) {
    return { reason: 'precharge-over-cut-in', figures: { prechargeKpa, cutInKpa: cutIn } };
  }
  const wanted = card.tank?.prechargeKpa;
  if (wanted !== undefined && prechargeKpa < MIN_PRECHARGE_RATIO * wanted) {
    return { reason: 'precharge-lost', figures: { prechargeKpa, cardKpa: wanted } };
  }
  return undefined;
}
