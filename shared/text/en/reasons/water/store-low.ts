/** Why `store-low` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const storeLowReasons = {
  'store-under-lowest-day': (
    { storeM, days, lowestM }: { storeM: number; days: number; lowestM: number },
    { length, count },
  ) =>
    `The level in the storage tank is ${length(storeM)}. In the last ${count(days, 'day', 'days')} it was never under ${length(lowestM)}.`,
} satisfies ReasonTexts;
