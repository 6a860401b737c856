/** Why `leak` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const leakReasons = {} satisfies ReasonTexts;
