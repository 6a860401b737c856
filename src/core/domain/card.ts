/**
 * What a person knows of the well, checked and in SI. Every field but the names is optional: what
 * was left out is learnt or left unsaid, never invented. What there is of it, and how people write
 * it: shared/card/card-fields.ts; reading and checking it: ./read-card.ts.
 */
import type { CARD, CONTROL, PROTECTOR, PUMP, SWITCH, TANK } from '../../../shared/card/card-fields.ts';
import type { Values } from '../../../shared/schema/field.ts';
import type { CardDescription } from './description.ts';

export type Control = NonNullable<Values<typeof CONTROL>['control']>;
export type Use = NonNullable<Values<typeof CARD>['use']>[number];

export type PumpCard = Values<typeof PUMP> &
  Partial<Values<typeof PROTECTOR>> & {
    /** `p1`, `p2` … */
    id: string;
    /** Pressure switch where the card does not say. */
    control: Control;
  };

export type SwitchCard = Omit<Values<typeof SWITCH>, 'points'>;

export type TankCard = Omit<Values<typeof TANK>, 'kind'> & {
  kind: NonNullable<Values<typeof TANK>['kind']>;
};

/**
 * Where one channel of the well comes from, from `sinceMs` (0: always) until the next rule of that
 * channel.
 */
export interface SourceRule {
  /** The well's channel: `current`, `p2/current`, `pressure` … */
  channel: string;
  node: string;
  /** The node's channel. */
  nodeChannel: string;
  sinceMs: number;
}

export type Card = Omit<Values<typeof CARD>, 'timeZone' | 'altitudeM' | 'use'> & {
  /** IANA; `UTC` where not given. */
  timeZone: string;
  /** 0 where not given; `altitudeKnown` says which, since litres depend on it. */
  altitudeM: number;
  altitudeKnown: boolean;
  uses: Use[];
  /** At least one. */
  pumps: PumpCard[];
  switch: SwitchCard;
  tank?: TankCard;
  /**
   * Sorted by channel, then `sinceMs`. Empty: the node of the well's name, channels as they are.
   */
  reads: SourceRule[];
  /** What no watch judges by; absent where nothing of it is said. */
  description?: CardDescription;
};
