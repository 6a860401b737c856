/**
 * The closed lists of alarms and causes, as the contract (firmware-contract/contract.md, section 6)
 * names them. Alarms are the rows of the catalogue (shared/alarms/catalogue.ts).
 */
import { CATALOGUE, type AlarmKind } from '../../../alarms/catalogue.ts';

export type { AlarmKind };
export const ALARM_KINDS = Object.keys(CATALOGUE) as readonly AlarmKind[];

/**
 * Forms of an alarm that ask for another first step (./forms.ts): `past-cut-out` of `long-run`,
 * where the switch should have opened; `over-plate` of `amps-high`, where the motor draws far more
 * than its plate allows; `on-two-phases` of `leg-imbalance` and `voltage-far-off` of
 * `supply-voltage`, which ruin a motor within the hour.
 */
export const ALARM_FORMS = [
  'past-cut-out',
  'over-plate',
  'on-two-phases',
  'voltage-far-off',
  'ended-by-protector',
] as const;
export type AlarmForm = (typeof ALARM_FORMS)[number];

/**
 * How soon a person should act: `now` act now, `soon` within days, `note` worth a look. In words,
 * with the levels within `now`: ./urgency.ts.
 */
export const PRIORITIES = ['now', 'soon', 'note'] as const;
export type Priority = (typeof PRIORITIES)[number];

export const CAUSES = [
  'worn-pump',
  'failing-motor',
  'failing-capacitor',
  'stuck-rotor',
  'low-well',
  'lost-prime',
  'wrong-rotation',
  'sand',
  'tank-air-lost',
  'bladder-burst',
  'tank-overcharged',
  'leak',
  'open-tap',
  'broken-pipe',
  'drop-pipe-leak',
  'pitless-leak',
  'check-valve',
  'closed-valve',
  'switch-contacts-stuck',
  'switch-out-of-set',
  'switch-chatter',
  'blocked-nipple',
  'frozen',
  'heat-expansion',
  'low-pressure-cut-off',
  'power-lost',
  'breaker-open',
  'overload-tripping',
  'protector-waiting',
  'lost-leg',
  'supply-voltage',
  'generator',
  'softener-regenerating',
  'habit-changed',
  'node-offline',
  'clamp-off',
  'transducer-fault',
  'bad-card',
  'serviced',
  'switch-contacts-open',
  'broken-wire',
  'ground-fault',
  'broken-shaft',
  'air-lock',
  'plugged-screen',
  'plugged-filter',
  'store-empty',
  'hydrant-leak',
  'water-table-risen',
  'tank-too-small',
] as const;
export type Cause = (typeof CAUSES)[number];

/**
 * A cause and how much of the evidence speaks for it: 0 < weight <= 1, heaviest first in a list.
 */
export interface WeighedCause {
  cause: Cause;
  weight: number;
}
