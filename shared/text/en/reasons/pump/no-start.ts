/** Why `no-start` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const noStartReasons = {} satisfies ReasonTexts;
