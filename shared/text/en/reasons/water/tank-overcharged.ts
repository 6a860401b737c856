/** Why `tank-overcharged` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const tankOverchargedReasons = {} satisfies ReasonTexts;
