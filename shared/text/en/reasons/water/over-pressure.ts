/** Why `over-pressure` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const overPressureReasons = {} satisfies ReasonTexts;
