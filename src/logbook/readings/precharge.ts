/**
 * What a pressure tank's air charge is to be set to: 2 psi under the cut-in of a pressure switch,
 * so that nobody notices the moment at which the pump takes over (Water Systems Council,
 * information sheet "Pressure Tanks", 2007, p. 3). The measured cut-in rules over the written one,
 * for a switch drifts and its card does not. Drives and constant-pressure valves want a charge that
 * their own manuals name.
 */
import type { Control, TankCard } from '../../core/domain/card.ts';
import { kpaFromPsi } from '../../../shared/units/pressure.ts';

const BELOW_CUT_IN_KPA = kpaFromPsi(2);

export type PrechargeResult =
  | { is: 'calculated'; kpa: number; cutInKpa: number; from: 'measured' | 'card' }
  /** The manual of the drive or valve names it. */
  | { is: 'by-manual'; equipment: 'drive' | 'valve' }
  /** A plain tank has no charge that could be set. */
  | { is: 'none' }
  /** No cut-in is measured or written, or it is no more than those 2 psi. */
  | { is: 'unknown' };

export interface PrechargeInput {
  control: Control;
  tankKind: TankCard['kind'];
  /** Gauge, kPa. */
  measuredCutInKpa?: number;
  writtenCutInKpa?: number;
}

/** The air charge to set, gauge kPa, with the tank empty of water and the pump off. */
export function calculatePrecharge(facts: PrechargeInput): PrechargeResult {
  if (facts.tankKind === 'plain') return { is: 'none' };
  if (facts.control === 'variable-speed') return { is: 'by-manual', equipment: 'drive' };
  if (facts.control === 'constant-pressure-valve') return { is: 'by-manual', equipment: 'valve' };
  const from = facts.measuredCutInKpa === undefined ? 'card' : 'measured';
  const cutInKpa = facts.measuredCutInKpa ?? facts.writtenCutInKpa;
  if (cutInKpa === undefined || cutInKpa <= BELOW_CUT_IN_KPA) return { is: 'unknown' };
  return { is: 'calculated', kpa: cutInKpa - BELOW_CUT_IN_KPA, cutInKpa, from };
}
