/** Why `power-lost` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const powerLostReasons = {} satisfies ReasonTexts;
