/**
 * What a check of the air charge aims at, with the reason where that can't be told. How it is
 * reckoned: ./precharge.ts.
 */
import type { Card } from '../../core/domain/card.ts';
import { calculatePrecharge } from './precharge.ts';

/** kPa gauge. */
export type PrechargeTarget =
  | { is: 'known'; kpa: number; cutInKpa: number; from: 'measured' | 'card' }
  | { is: 'unknown'; reason: string };

const SEE_MANUAL_REASONS = {
  drive: 'A variable-speed drive runs this pump: its instructions say which precharge the tank needs.',
  valve:
    'A constant-pressure valve throttles this pump: its instructions say which precharge the tank needs.',
} as const;

export function prechargeTarget(card: Card, measuredCutInKpa: number | undefined): PrechargeTarget {
  const controls = card.pumps.map(({ control }) => control);
  const writtenCutInKpa = card.switch.cutInKpa;
  const target = calculatePrecharge({
    control: controls.find((one) => one === 'variable-speed') ?? controls[0] ?? 'pressure-switch',
    tankKind: card.tank?.kind ?? 'captive-air',
    ...(measuredCutInKpa !== undefined && { measuredCutInKpa }),
    ...(writtenCutInKpa !== undefined && { writtenCutInKpa }),
  });
  switch (target.is) {
    case 'calculated':
      return { ...target, is: 'known' };
    case 'by-manual':
      return { is: 'unknown', reason: SEE_MANUAL_REASONS[target.equipment] };
    case 'none':
      return { is: 'unknown', reason: 'A plain tank has no precharge to set.' };
    case 'unknown':
      return {
        is: 'unknown',
        reason:
          (measuredCutInKpa ?? writtenCutInKpa) === undefined
            ? 'Cut-in is neither measured nor on the card. The target is 2 psi (14 kPa) under it.'
            : 'Cut-in is too low to set a precharge by.',
      };
    default:
      return target satisfies never;
  }
}
