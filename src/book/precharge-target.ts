/**
 * The air charge that a tank should have: 2 psi under cut-in (Water Systems Council, "Pressure Tanks", 2007). The cut-in that is measured
 * goes before the one that the card says, for the tank works with the switch as it is. A drive holds one pressure and has no
 * cut-in of that kind: its own instructions say what the tank needs.
 */
import { kpaFromPsi } from '../../shared/units/pressure.ts';
import type { Card } from '../card/card.ts';

/** kPa gauge. */
export type Target =
  { is: 'known'; kpa: number; cutInKpa: number; from: 'measured' | 'card' } | { is: 'unknown'; why: string };

const UNDER_CUT_IN_KPA = kpaFromPsi(2);

export function prechargeTarget(card: Card, measuredCutInKpa: number | undefined): Target {
  if (card.pumps.some(({ control }) => control === 'variable-speed'))
    return {
      is: 'unknown',
      why: 'A variable-speed drive runs this pump: its instructions say which precharge the tank needs.',
    };
  const [cutInKpa, from] =
    measuredCutInKpa === undefined
      ? ([card.switch.cutInKpa, 'card'] as const)
      : ([measuredCutInKpa, 'measured'] as const);
  if (cutInKpa === undefined)
    return {
      is: 'unknown',
      why: 'Cut-in is neither measured nor on the card. The target is 2 psi (14 kPa) under it.',
    };
  if (cutInKpa <= UNDER_CUT_IN_KPA) return { is: 'unknown', why: 'Cut-in is too low to set a precharge by.' };
  return { is: 'known', kpa: cutInKpa - UNDER_CUT_IN_KPA, cutInKpa, from };
}
