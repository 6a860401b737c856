/**
 * How many starts a day a motor stands: by its size and phases, as table 3, "Number of Starts", of
 * a motor maker's application manual (AIM) has it. The Water Systems Council's tank standard agrees
 * for small motors (under 300 in 24 h; as few as 50 above 5 hp, "Tank Selection by the Numbers",
 * Water Well Journal). The manual asks for 15 min between starts of 6 in motors and larger; a card
 * does not say the diameter.
 */
import { wFromHp } from '../../../shared/units/power.ts';
import type { PumpCard } from '../domain/card.ts';

/** Just over 3/4 hp, and over 5.5 hp, 30 hp: rounded plates must fall on the right side. */
const SMALL_W = wFromHp(0.8);
const MIDDLE_W = wFromHp(5.75);
const LARGE_W = wFromHp(31);

export interface StartsLimit {
  perDay: number;
  /** Whether the motor's size stood on the card. */
  isSizeKnown: boolean;
}

/** The motor's limit; 300 a day where the card says no size, since no motor allows more. */
export function startsLimit(pump: Pick<PumpCard, 'motorW' | 'phase'>): StartsLimit {
  const { motorW, phase } = pump;
  if (motorW === undefined) return { perDay: 300, isSizeKnown: false };
  if (motorW <= SMALL_W) return { perDay: 300, isSizeKnown: true };
  if (motorW <= MIDDLE_W) return { perDay: phase === 3 ? 300 : 100, isSizeKnown: true };
  if (motorW <= LARGE_W) return { perDay: phase === 3 ? 100 : 50, isSizeKnown: true };
  return { perDay: 100, isSizeKnown: true };
}
