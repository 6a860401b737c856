/** Why `tank-air-lost` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const tankAirLostReasons = {} satisfies ReasonTexts;
