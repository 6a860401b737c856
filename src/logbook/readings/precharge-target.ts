/**
 * What a check of the air charge aims at, with the reason where that can't be told. How it is
 * reckoned: ./precharge.ts.
 */
import type { Card } from '../../core/domain/card.ts';
import { calculatePrecharge } from './precharge.ts';
import { texts } from '../texts.ts';

/** kPa gauge. */
export type PrechargeTarget =
  | { is: 'known'; kpa: number; cutInKpa: number; from: 'measured' | 'card' }
  | { is: 'unknown'; reason: string };

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
      return {
        is: 'unknown',
        reason: target.equipment === 'drive' ? texts().precharge.byDrive : texts().precharge.byValve,
      };
    case 'none':
      return { is: 'unknown', reason: texts().precharge.plainTank };
    case 'unknown':
      return {
        is: 'unknown',
        reason:
          (measuredCutInKpa ?? writtenCutInKpa) === undefined
            ? texts().precharge.cutInUnknown
            : texts().precharge.cutInTooLow,
      };
    default:
      return target satisfies never;
  }
}
