/** What is said of `site-silent`. */
import type { AlarmText } from '../text-shapes.ts';

export const siteSilentText = {
  title: 'A whole site went silent',
  means: 'Half of the site’s boxes or more fell silent within minutes. The site’s power or its link is out.',
  firstStep:
    'Find out whether the site has power. If so, look at its network. If not, call the power company, and see to water for people and stock. Use a generator only through a transfer switch or interlock, and outdoors.',
  canBeWrong:
    'Work on the network or a new router looks the same as a power cut. So does our own link being down, if the boxes reach us over the internet.',
  needs: 'At least two boxes whose wells name the same site.',
  cautions: [
    'downed-line',
    'generator',
    'generator-load',
    'lock-out',
    'stock-water',
    'flood',
    'only-watches',
  ],
  reasons: {
    'site-nodes-silent': (
      { silentNodes, nodeCount }: { silentNodes: number; nodeCount: number },
      { number },
    ) =>
      `${number(silentNodes)} of the ${number(nodeCount)} nodes at this site fell silent within 5 min. The site's link or power has probably failed.`,
  },
} satisfies AlarmText;
