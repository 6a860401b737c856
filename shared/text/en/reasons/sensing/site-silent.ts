/** Why `site-silent` is active, in words. */
import type { ReasonTexts } from '../reason-text.ts';

export const siteSilentReasons = {
  'site-nodes-silent': ({ silentNodes, nodeCount }: { silentNodes: number; nodeCount: number }, { number }) =>
    `${number(silentNodes)} of the ${number(nodeCount)} nodes at this site fell silent within 5 min. The site's link or power has probably failed.`,
} satisfies ReasonTexts;
