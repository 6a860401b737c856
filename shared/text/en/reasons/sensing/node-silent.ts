/** Why `node-silent` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const nodeSilentReasons = {} satisfies ReasonTexts;
