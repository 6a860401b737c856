/** Why `leg-lost` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const legLostReasons = {} satisfies ReasonTexts;
