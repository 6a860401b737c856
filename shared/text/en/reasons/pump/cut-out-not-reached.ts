/** Why `cut-out-not-reached` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const cutOutNotReachedReasons = {} satisfies ReasonTexts;
