/** Words for the causes in the use of water, in the watching itself and on the card. */
import type { Cause } from '../alarms/kinds.ts';
import type { CauseWords } from '../alarms/text-shapes.ts';

export const USE_CAUSES = {
  'softener-regenerating': {
    name: 'Softener regenerating',
    what: 'A water softener or filter is rinsing itself, as it does every few days. A timer that waters looks the same.',
    evidenceFor:
      'The same use for the same time, every few days, begun within minutes of the same clock time.',
    evidenceAgainst: 'It begins at any hour, or goes on for many hours.',
    firstStep:
      'Compare with the clock of the softener, the filter and any timer. If none fits, look for a leak.',
    cautions: [],
  },
  'habit-changed': {
    name: 'Use has changed',
    what: 'People, stock or a garden use more or less water than before.',
    evidenceFor: 'More or fewer runs, each of them as good as ever, at the hours when people draw water.',
    evidenceAgainst: 'The runs themselves have changed.',
    firstStep:
      'Ask whoever lives there, and enter it as expected. If nobody uses more or less, look for a leak or a clamp that came off.',
    cautions: [],
  },
  'node-offline': {
    name: 'Node or its link is down',
    what: 'The box at the well, its supply or its network has failed.',
    evidenceFor: 'Nothing comes at all, from any of its sensors.',
    evidenceAgainst: 'Other readings of the same box still come.',
    firstStep:
      'Look at its lamp and its supply from outside, then at the network. If it stays silent, call whoever installed it.',
    cautions: ['electrician', 'only-watches'],
  },
  'clamp-off': {
    name: 'Current clamp off or open',
    what: 'The clamp has come off, is not quite closed, or is around two conductors.',
    evidenceFor:
      'The pressure rises as in a run while the clamp shows nothing, or the amps fell at one moment with delivery as ever.',
    evidenceAgainst: 'No water comes either.',
    firstStep:
      'See that water comes. Then call the electrician or pump contractor who fitted the clamp: it sits inside an electrical box.',
    cautions: ['electrician', 'lock-out', 'only-watches'],
  },
  'transducer-fault': {
    name: 'Pressure transducer wrong',
    what: 'The pressure sensor drifts, is stuck, or its line is blocked.',
    evidenceFor: 'Cut-in and cut-out moved by the same amount, or the reading stands still through runs.',
    evidenceAgainst: 'The gauge at the tank agrees with it.',
    firstStep:
      'Compare with the gauge at the tank, but not while the pressure here is over cut-out: then keep away from the tank. If they differ, have it calibrated or replaced by your pump contractor: pump off and locked off, water pressure down to zero.',
    cautions: ['lock-out', 'electrician', 'tank-pressure', 'freezing', 'well-pit'],
  },
  'bad-card': {
    name: 'Card is wrong',
    what: 'Something on the card does not fit what is there: tank, precharge, switch, motor or altitude.',
    evidenceFor: 'The readings contradict the card and agree among themselves, since the first day.',
    evidenceAgainst: 'Readings and card agreed until some day.',
    firstStep:
      'Compare the card with the papers and with nameplates that can be read from outside, and correct it. Open nothing for it.',
    cautions: [],
  },
  serviced: {
    name: 'Somebody worked on it',
    what: 'A part was replaced, set or left in another state than before.',
    evidenceFor:
      'Several things changed at one moment, for the better or to round figures, in working hours.',
    evidenceAgainst: 'Nobody was there.',
    firstStep: 'Ask, enter the visit, change the card, and let a new baseline be learned.',
    cautions: ['contamination'],
  },
} as const satisfies Partial<Record<Cause, CauseWords>>;
