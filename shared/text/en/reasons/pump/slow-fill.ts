/** Why `slow-fill` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const slowFillReasons = {} satisfies ReasonTexts;
