/** Why `leg-imbalance` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const legImbalanceReasons = {} satisfies ReasonTexts;
