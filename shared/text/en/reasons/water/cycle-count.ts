/** Why `cycle-count` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const cycleCountReasons = {} satisfies ReasonTexts;
