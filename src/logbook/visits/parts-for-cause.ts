/**
 * Which parts a cause may need: what a contractor would load for it (common practice, no source). A
 * cause of use or of a node needs none of the well.
 */
import type { Cause } from '../../../shared/text/en/alarms/kinds.ts';

export type ServicePart =
  'pump' | 'drop-pipe' | 'control-box' | 'switch' | 'tank' | 'fittings' | 'electrical' | 'sensors' | 'level';

const DOWNHOLE_PARTS: readonly ServicePart[] = ['pump', 'drop-pipe'];
const NO_PARTS: readonly ServicePart[] = [];

const PARTS_BY_CAUSE: Record<Cause, readonly ServicePart[]> = {
  'worn-pump': DOWNHOLE_PARTS,
  'failing-motor': [...DOWNHOLE_PARTS, 'control-box', 'electrical'],
  'failing-capacitor': ['control-box'],
  'stuck-rotor': [...DOWNHOLE_PARTS, 'control-box'],
  'low-well': ['level', 'drop-pipe'],
  'lost-prime': ['fittings'],
  'wrong-rotation': ['electrical'],
  sand: [...DOWNHOLE_PARTS, 'level'],
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
  generator: NO_PARTS,
  'softener-regenerating': NO_PARTS,
  'habit-changed': NO_PARTS,
  'node-offline': NO_PARTS,
  'clamp-off': ['sensors'],
  'transducer-fault': ['sensors'],
  'bad-card': NO_PARTS,
  serviced: NO_PARTS,
  'switch-contacts-open': ['switch'],
  'broken-wire': [...DOWNHOLE_PARTS, 'control-box', 'electrical'],
  'ground-fault': [...DOWNHOLE_PARTS, 'electrical'],
  'broken-shaft': DOWNHOLE_PARTS,
  'air-lock': ['level'],
  'plugged-screen': [...DOWNHOLE_PARTS, 'level'],
  'plugged-filter': ['fittings'],
  'store-empty': ['fittings'],
  'hydrant-leak': ['fittings'],
  'water-table-risen': ['level'],
  'tank-too-small': ['tank'],
};

export function partsForCause(cause: Cause): readonly ServicePart[] {
  return PARTS_BY_CAUSE[cause];
}
