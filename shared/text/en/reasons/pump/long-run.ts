/** Why `long-run` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const longRunReasons = {} satisfies ReasonTexts;
