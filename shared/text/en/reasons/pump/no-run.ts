/** Why `no-run` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const noRunReasons = {} satisfies ReasonTexts;
