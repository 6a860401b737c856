/** Why `node-conflict` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const nodeConflictReasons = {
  'two-nodes-one-name': ({ node }: { node: string }) =>
    `Two devices send as node ${node}. The readings of this well may be another well's.`,
} satisfies ReasonTexts;
