/**
 * Why `no-start` is active, in words: water is called for, by a contact or by low pressure, and no
 * current flows.
 */
import type { ReasonTexts } from '../reason-text.ts';

export const noStartReasons = {
  'called-for-water-no-current': (
    { caller, forS }: { caller: 'float' | 'timer' | 'switch'; forS: number },
    { duration },
  ) => `The ${caller} has called for water for ${duration(forS)}, and no current flows.`,
  'under-cut-in-no-current': (
    { kpa, cutInKpa, forS }: { kpa: number; cutInKpa: number; forS: number },
    { pressure, duration },
  ) =>
    `Pressure is ${pressure(kpa)}, under the cut-in of ${pressure(cutInKpa)}. No current has flowed for ${duration(forS)}.`,
} satisfies ReasonTexts;
