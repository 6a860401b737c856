/** Why `no-water` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const noWaterReasons = {} satisfies ReasonTexts;
