/** Why `amps-low` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const ampsLowReasons = {} satisfies ReasonTexts;
