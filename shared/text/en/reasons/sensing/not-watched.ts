/** Why `not-watched` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const notWatchedReasons = {
  'watching-stopped': () =>
    'An internal error stopped the watching of this well. Its readings are still recorded, and the other wells are watched.',
} satisfies ReasonTexts;
