/** Why `short-cycling` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const shortCyclingReasons = {} satisfies ReasonTexts;
