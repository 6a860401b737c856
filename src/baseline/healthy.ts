/**
 * Could this day have been a healthy one? Judged by physical limits alone, never by the baseline that it would teach: a well that
 * was ill from its first day must not become its own measure. The answer is a reason, since "no normal found here" is told with it.
 */
import type { DayEvent } from '../../shared/api/events.ts';
import type { Card, PumpCard } from '../card/card.ts';
import { leastFillS } from './least-fill.ts';
import { startsLimit } from './motor-starts.ts';
import { median } from './robust.ts';
import type { Learning } from './learning.ts';

/** Under 95 % of a day heard teaches nothing (contract, section 6). A day of 23 h has 82,800 s and still passes when it is whole. */
const LEAST_HEARD_S = 0.95 * 86_400;
/** A service factor may be used in full; a clamp of 2 % and a supply of 5 % more are not an ill pump. */
const OVER_MAX = 1.07;
/** Runs shorter than this do not cool a motor, whatever its size. Common practice asks for a minute. */
const SHORTEST_RUN_S = 8;
/** A pump with a pressure switch that rests less than a tenth of the day is held by a leak or does not reach cut-out. */
const LONGEST_RUN_SHARE = 0.9;
/** 20 L/h: an EPA "bad leak" is 90 gal/day (14 L/h); a day with more is no measure of this well. */
const MOST_LEAK_L_PER_DAY = 480;
/** A check of the air charge: the trade asks for 2 psi under cut-in (Water Systems Council, "Pressure Tanks", 2007). 3 psi over it is 5 psi wrong. */
const AIR_OVER_CUT_IN_KPA = 21;
const AIR_LEFT_SHARE = 0.5;
/** Of the least time that a fill can take: half of it leaves room for a card that is off by a tank's size. */
const FILL_SHARE = 0.5;

export type Health =
  | { is: 'healthy' }
  /** Says nothing of the well: not heard enough, or nothing to judge. */
  | { is: 'unheard'; because: string }
  | { is: 'ill'; because: string };

export interface DayFacts {
  day: DayEvent;
  card: Card;
  pump: PumpCard;
  /** Air charge of the tank as the fills show it, kPa gauge, where hydraulics could tell. */
  airKpa?: number | undefined;
}

export function judgeDay(state: Learning, { day, card, pump, airKpa }: DayFacts): Health {
  if ((day.heardS ?? 0) < LEAST_HEARD_S) {
    return { is: 'unheard', because: `only ${Math.round((day.heardS ?? 0) / 864)} % of the day was heard` };
  }
  const because = illBecause(state, day, card, pump) ?? tankIll(state, card, airKpa);
  return because === undefined ? { is: 'healthy' } : { is: 'ill', because };
}

function illBecause(state: Learning, day: DayEvent, card: Card, pump: PumpCard): string | undefined {
  const cycles = day.cycles ?? 0;
  if (
    pump.maxAmps !== undefined &&
    day.ampsMedian !== undefined &&
    day.ampsMedian > OVER_MAX * pump.maxAmps
  ) {
    return `the pump draws ${day.ampsMedian.toFixed(1)} A, over the motor's maximum of ${pump.maxAmps.toFixed(1)} A`;
  }
  const limit = startsLimit(pump).perDay;
  if (cycles > limit) return `${cycles} starts in a day are more than the ${limit} that the motor allows`;
  const ran = middleOf(state, 4);
  if (pump.control === 'pressure-switch') {
    if (cycles >= 20 && ran !== undefined && ran < SHORTEST_RUN_S) {
      return `runs of ${ran.toFixed(0)} s are too short for any tank that holds its air`;
    }
    if ((day.ranS ?? 0) > LONGEST_RUN_SHARE * 86_400) return 'the pump hardly ever stops';
    if (ran !== undefined && cycles >= 5) {
      const least = leastFill(state, card, pump);
      if (least !== undefined && ran < FILL_SHARE * least) {
        return `runs of ${ran.toFixed(0)} s are too short for a tank of ${Math.round(card.tank?.volumeL ?? 0)} L that holds its air: it takes ${least.toFixed(0)} s at least`;
      }
    }
  }
  if (
    (day.leakLPerDay ?? 0) > MOST_LEAK_L_PER_DAY &&
    !card.uses.includes('irrigation') &&
    !card.uses.includes('stock')
  ) {
    return `about ${Math.round((day.leakLPerDay ?? 0) / 10) * 10} L a day leave while nobody draws water`;
  }
  return undefined;
}

function leastFill(state: Learning, card: Card, pump: PumpCard): number | undefined {
  const cutInKpa = middleOf(state, 2);
  const cutOutKpa = middleOf(state, 3);
  return cutInKpa === undefined || cutOutKpa === undefined
    ? undefined
    : leastFillS(card, pump, { cutInKpa, cutOutKpa });
}

function middleOf(state: Learning, column: 2 | 3 | 4): number | undefined {
  return median(state.today.map((sample) => sample[column]).filter((value) => value !== null));
}

function tankIll(state: Learning, card: Card, airKpa: number | undefined): string | undefined {
  if (airKpa === undefined || card.tank?.kind === 'plain') return undefined;
  const cutIn = middleOf(state, 2);
  if (cutIn !== undefined && airKpa > cutIn + AIR_OVER_CUT_IN_KPA) {
    return `the tank's air charge of ${Math.round(airKpa)} kPa is over the cut-in of ${Math.round(cutIn)} kPa`;
  }
  const wanted = card.tank?.prechargeKpa;
  if (wanted !== undefined && airKpa < AIR_LEFT_SHARE * wanted) {
    return `the tank has lost half of its air charge: ${Math.round(airKpa)} kPa of ${Math.round(wanted)} kPa`;
  }
  return undefined;
}
