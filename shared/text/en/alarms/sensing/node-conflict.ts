/** What is said of `node-conflict`. */
import type { AlarmText } from '../text-shapes.ts';

export const nodeConflictText = {
  title: 'Two boxes use one name',
  means: 'Readings of two boxes come under the same name. What is shown for this well may be a mixture.',
  firstStep:
    'Find the second box: an old one switched on again, or a new one set up with a copied name. Rename it or have it unplugged by whoever installed it.',
  canBeWrong:
    'A box whose memory was put back from an old copy, or copied while it ran, can look like two for a while. Readings sent again through a second gateway can too.',
  needs: 'Boxes that count their starts and packs.',
  cautions: [],
  reasons: {
    'two-nodes-one-name': ({ node }: { node: string }) =>
      `Two devices send as node ${node}. The readings of this well may be another well's.`,
  },
} satisfies AlarmText;
