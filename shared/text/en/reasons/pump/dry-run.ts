/** Why `dry-run` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const dryRunReasons = {} satisfies ReasonTexts;
