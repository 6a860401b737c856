/** What is said of `not-watched`. */
import type { AlarmText } from '../text-shapes.ts';

export const notWatchedText = {
  title: 'This well is not being watched',
  means:
    'A fault in Stillwell itself stopped the watching of this well. The other wells go on. Nothing is known to be wrong with the well.',
  firstStep:
    'Until this is over, look at the well yourself twice a day: gauge, tap, trough. Restart the server. If the fault returns, keep the log and call whoever installed Stillwell.',
  canBeWrong:
    'It says only what it knows: that it does not see this well. The well itself may be fine or not.',
  needs: 'Nothing: it is said by the server of itself.',
  cautions: ['well-pit', 'only-watches', 'stock-water'],
  reasons: {
    'watching-stopped': () =>
      'An internal error stopped the watching of this well. Its readings are still recorded, and the other wells are watched.',
  },
} satisfies AlarmText;
