/** Why `node-conflict` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const nodeConflictReasons = {} satisfies ReasonTexts;
