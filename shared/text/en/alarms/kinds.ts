/**
 * The closed list of alarms and the list of causes, as the contract (firmware-contract/contract.md,
 * section 6) names them. An alarm that is not here does not exist; `tests/tidy.test.ts` wants
 * wording, a test and causes for each.
 */
export const ALARM_KINDS = [
  'long-run',
  'dry-run',
  'failed-start',
  'no-start',
  'power-lost',
  'leg-lost',
  'no-water',
  'no-run',
  'store-low',
  'over-pressure',
  'short-cycling',
  'starts-over-limit',
  'amps-high',
  'amps-low',
  'leg-imbalance',
  'supply-voltage',
  'cut-out-not-reached',
  'slow-fill',
  'level-low',
  'tank-air-lost',
  'tank-overcharged',
  'leak',
  'freeze-risk',
  'switch-shift',
  'cycle-count',
  'node-silent',
  'site-silent',
  'not-watched',
  'node-conflict',
  'sensor-fault',
] as const;
export type AlarmKind = (typeof ALARM_KINDS)[number];

/**
 * Forms of an alarm that ask for another first step (./forms.ts): `past-cut-out` of `long-run`,
 * where the switch should have opened.
 */
export const ALARM_FORMS = ['past-cut-out'] as const;
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
] as const;
export type Cause = (typeof CAUSES)[number];

/**
 * A cause and how much of the evidence speaks for it: 0 < weight <= 1, heaviest first in a list.
 */
export interface WeighedCause {
  cause: Cause;
  weight: number;
}
