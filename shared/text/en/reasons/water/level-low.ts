/** Why `level-low` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const levelLowReasons = {} satisfies ReasonTexts;
