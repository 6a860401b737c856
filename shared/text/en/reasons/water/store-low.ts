/** Why `store-low` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const storeLowReasons = {} satisfies ReasonTexts;
