/** Why `amps-high` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const ampsHighReasons = {} satisfies ReasonTexts;
