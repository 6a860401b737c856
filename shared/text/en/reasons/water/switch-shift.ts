/** Why `switch-shift` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const switchShiftReasons = {} satisfies ReasonTexts;
