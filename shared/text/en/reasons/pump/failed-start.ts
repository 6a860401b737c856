/** Why `failed-start` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const failedStartReasons = {} satisfies ReasonTexts;
