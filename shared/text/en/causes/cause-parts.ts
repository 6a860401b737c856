/**
 * Which parts each cause is about, so that whoever reads of a cause can read what the part does.
 * The part that fails stands first, then those that show it or that are to be asked about too.
 */
import type { Cause } from '../alarms/kinds.ts';
import type { Part } from '../parts/part-words.ts';

export const CAUSE_PARTS: Record<Cause, readonly [Part, ...Part[]]> = {
  'worn-pump': ['submersible-pump', 'jet-pump'],
  'failing-motor': ['motor', 'overload'],
  'failing-capacitor': ['control-box', 'motor'],
  'stuck-rotor': ['motor', 'submersible-pump', 'overload'],
  'low-well': ['well', 'submersible-pump', 'pump-protector'],
  'lost-prime': ['jet-pump', 'check-valve'],
  'wrong-rotation': ['motor', 'breaker'],
  sand: ['well', 'submersible-pump', 'treatment'],
  'tank-air-lost': ['pressure-tank'],
  'bladder-burst': ['pressure-tank'],
  'tank-overcharged': ['pressure-tank', 'pressure-switch'],
  leak: ['pipes', 'check-valve'],
  'open-tap': ['pipes', 'trough'],
  'broken-pipe': ['pipes', 'drop-pipe'],
  'drop-pipe-leak': ['drop-pipe', 'check-valve'],
  'pitless-leak': ['pitless-adapter'],
  'check-valve': ['check-valve'],
  'closed-valve': ['pipes', 'treatment'],
  'switch-contacts-stuck': ['pressure-switch', 'relief-valve'],
  'switch-out-of-set': ['pressure-switch', 'pressure-gauge'],
  'switch-chatter': ['pressure-switch', 'pressure-tank'],
  'blocked-nipple': ['pressure-switch', 'pressure-gauge', 'pressure-transducer'],
  frozen: ['pipes', 'pressure-switch', 'pressure-gauge'],
  'heat-expansion': ['pipes', 'relief-valve', 'pressure-tank'],
  'low-pressure-cut-off': ['pressure-switch'],
  'power-lost': ['breaker', 'node'],
  'breaker-open': ['breaker'],
  'overload-tripping': ['overload', 'motor', 'control-box'],
  'protector-waiting': ['pump-protector'],
  'lost-leg': ['breaker', 'motor'],
  'supply-voltage': ['breaker', 'motor'],
  generator: ['breaker', 'motor'],
  'softener-regenerating': ['treatment'],
  'habit-changed': ['pipes', 'trough'],
  'node-offline': ['node'],
  'clamp-off': ['current-clamp'],
  'transducer-fault': ['pressure-transducer', 'pressure-gauge'],
  'bad-card': ['pressure-tank', 'pressure-switch', 'motor'],
  serviced: ['pressure-switch', 'pressure-tank', 'motor', 'treatment'],
};
