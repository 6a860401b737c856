/** Which parts a cause may need: what a contractor would load for it (common practice, no source). A cause of use or of a node needs none of the well. */
import type { Cause } from '../../shared/words/kinds.ts';

export type Part =
  'pump' | 'drop-pipe' | 'control-box' | 'switch' | 'tank' | 'fittings' | 'electrical' | 'sensors' | 'level';

const DOWN_THE_HOLE: readonly Part[] = ['pump', 'drop-pipe'];
const NOTHING: readonly Part[] = [];

const PARTS_FOR: Record<Cause, readonly Part[]> = {
  'worn-pump': DOWN_THE_HOLE,
  'failing-motor': [...DOWN_THE_HOLE, 'control-box', 'electrical'],
  'failing-capacitor': ['control-box'],
  'stuck-rotor': [...DOWN_THE_HOLE, 'control-box'],
  'low-well': ['level', 'drop-pipe'],
  'lost-prime': ['fittings'],
  'wrong-rotation': ['electrical'],
  sand: [...DOWN_THE_HOLE, 'level'],
  'tank-air-lost': ['tank'],
  'bladder-burst': ['tank', 'fittings'],
  'tank-overcharged': ['tank'],
  leak: ['fittings'],
  'open-tap': ['fittings'],
  'broken-pipe': ['fittings', 'drop-pipe'],
  'drop-pipe-leak': ['drop-pipe', 'fittings'],
  'pitless-leak': ['fittings', 'drop-pipe'],
  'check-valve': ['drop-pipe', 'fittings'],
  'closed-valve': ['fittings'],
  'switch-contacts-stuck': ['switch'],
  'switch-out-of-set': ['switch'],
  'switch-chatter': ['switch', 'tank'],
  'blocked-nipple': ['switch'],
  frozen: ['fittings'],
  'heat-expansion': ['fittings', 'tank'],
  'low-pressure-cut-off': ['switch'],
  'power-lost': ['electrical'],
  'breaker-open': ['electrical'],
  'overload-tripping': ['electrical', 'control-box'],
  'protector-waiting': ['electrical', 'level'],
  'lost-leg': ['electrical'],
  'supply-voltage': ['electrical'],
  generator: NOTHING,
  'softener-regenerating': NOTHING,
  'habit-changed': NOTHING,
  'node-offline': NOTHING,
  'clamp-off': ['sensors'],
  'transducer-fault': ['sensors'],
  'bad-card': NOTHING,
  serviced: NOTHING,
};

export function partsFor(cause: Cause): readonly Part[] {
  return PARTS_FOR[cause];
}
