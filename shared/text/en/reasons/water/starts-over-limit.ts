/** Why `starts-over-limit` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const startsOverLimitReasons = {} satisfies ReasonTexts;
