/** What a check of the air charge aims at, with the reason where that can't be told. How it is reckoned: ./precharge.ts. */
import type { Card } from '../card/card.ts';
import { prechargeToSet } from './precharge.ts';

/** kPa gauge. */
export type Target =
  { is: 'known'; kpa: number; cutInKpa: number; from: 'measured' | 'card' } | { is: 'unknown'; why: string };

const MANUAL_WHY = {
  drive: 'A variable-speed drive runs this pump: its instructions say which precharge the tank needs.',
  valve:
    'A constant-pressure valve throttles this pump: its instructions say which precharge the tank needs.',
} as const;

export function prechargeTarget(card: Card, measuredCutInKpa: number | undefined): Target {
  const controls = card.pumps.map(({ control }) => control);
  const writtenCutInKpa = card.switch.cutInKpa;
  const target = prechargeToSet({
    control: controls.find((one) => one === 'variable-speed') ?? controls[0] ?? 'pressure-switch',
    tankKind: card.tank?.kind ?? 'captive-air',
    ...(measuredCutInKpa !== undefined && { measuredCutInKpa }),
    ...(writtenCutInKpa !== undefined && { writtenCutInKpa }),
  });
  switch (target.is) {
    case 'reckoned':
      return { ...target, is: 'known', from: target.from === 'written' ? 'card' : 'measured' };
    case 'by-manual':
      return { is: 'unknown', why: MANUAL_WHY[target.of] };
    case 'none':
      return { is: 'unknown', why: 'A plain tank has no precharge to set.' };
    case 'unknown':
      return {
        is: 'unknown',
        why:
          (measuredCutInKpa ?? writtenCutInKpa) === undefined
            ? 'Cut-in is neither measured nor on the card. The target is 2 psi (14 kPa) under it.'
            : 'Cut-in is too low to set a precharge by.',
      };
    default:
      return target satisfies never;
  }
}
