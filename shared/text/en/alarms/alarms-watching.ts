/** Words for the alarms about the watching itself: nodes, sensors and this server. */
import type { AlarmKind } from './kinds.ts';
import type { AlarmWords } from './text-shapes.ts';

export const WATCHING_ALARMS = {
  'node-silent': {
    title: 'Nothing heard from a node',
    means:
      'The box at the well has sent nothing for longer than it ever does. The well may be fine; nobody is watching it now.',
    firstStep:
      'Open a tap to see that there is water. Then look whether the box has power and its radio or network is up.',
    canBeWrong:
      'A network that is down, a router being changed, or a battery box asleep in the cold is no trouble of the well. The box keeps its readings and may bring them later.',
    needs: 'Nothing but the box’s own messages.',
    cautions: ['breaker-once', 'only-watches'],
  },
  'site-silent': {
    title: 'A whole site went silent',
    means:
      'Half of the site’s boxes or more fell silent within minutes. The site’s power or its link is out.',
    firstStep:
      'Find out whether the site has power. If so, look at its network. If not, see to water for people and stock. Use a generator only through a transfer switch or interlock, and outdoors.',
    canBeWrong:
      'Work on the network or a new router looks the same as a power cut. So does our own link being down, if the boxes reach us over the internet.',
    needs: 'At least two boxes whose wells name the same site.',
    cautions: ['generator', 'stock-water', 'flood', 'only-watches'],
  },
  'not-watched': {
    title: 'This well is not being watched',
    means:
      'A fault in Stillwell itself stopped the watching of this well. The other wells go on. Nothing is known to be wrong with the well.',
    firstStep:
      'Restart the server. If it comes back, keep the log and report it. Until then check the well yourself.',
    canBeWrong:
      'It says only what it knows: that it does not see this well. The well itself may be fine or not.',
    needs: 'Nothing: it is said by the server of itself.',
    cautions: ['only-watches'],
  },
  'node-conflict': {
    title: 'Two boxes use one name',
    means: 'Readings of two boxes come under the same name. What is shown for this well may be a mixture.',
    firstStep:
      'Find the second box: an old one switched on again, or a new one set up with a copied name. Rename or unplug it.',
    canBeWrong:
      'A box whose memory was put back from an old copy, or copied while it ran, can look like two for a while. Readings sent again through a second gateway can too.',
    needs: 'Boxes that count their starts and packs.',
    cautions: [],
  },
  'sensor-fault': {
    title: 'A sensor cannot be right',
    means:
      'A reading is out of its range, has not moved for too long, fell to nothing faster than the tank can empty, or contradicts the card. What depends on it is not judged until it is right.',
    firstStep:
      'Compare with the dial at the tank, or with what the pump is doing. Look for a loose lead or a wet box, and touch neither: both may be live.',
    canBeWrong:
      'A well that rests for days gives steady readings too, and a pump of another make draws what the card does not say. A wrong card can make a good sensor look bad. A pipe torn off while the power is out can look like a gauge that lost its plug: if no tap runs, it is the water. The alarm says which of the two it compared.',
    needs:
      'The channel in question, and at least one other of the same well to compare with. Some kinds need the card.',
    cautions: ['electrician', 'well-pit', 'freezing'],
  },
} as const satisfies Partial<Record<AlarmKind, AlarmWords>>;
