/** What is said of `amps-high`. */
import { shiftText, supplyText, type AmpsShiftFigures } from './amps-shift-text.ts';
import type { AlarmText } from '../text-shapes.ts';

export const ampsHighText = {
  title: 'Motor draws more than it used to',
  means:
    'The running current has left its normal upwards. The motor works harder: sand or scale in the pump, worn bearings, failing windings, or a supply that has changed.',
  firstStep:
    'Compare the amps on the screen with the service-factor amps on the card or on the label of the control box. Open nothing. If the pump draws more, switch it off at {breaker}, leave it off and call {firm}. If it draws less, there is nothing to do today: have {firm} measure volts and amps within a week.',
  canBeWrong:
    'A hole in the drop pipe, or water that stands higher in the well, raises the amps of a sound motor. Where voltage is not measured, the supply alone moves them by a few percent, from season to season too. Another load on the same wire does it as well.',
  needs:
    'Current, and a baseline of it. Voltage tells a changed supply from a changed motor; pressure makes runs comparable.',
  cautions: ['hot-panel', 'electrician', 'stored-charge', 'lock-out', 'only-watches', 'stock-water'],
  forms: {
    'over-plate': {
      means:
        'The motor draws far more than its nameplate allows. Its windings overheat, and its overload should have stopped it by now. A motor that is run on like this burns out.',
      firstStep:
        'Switch the pump off at {breaker} now and leave it off. Call {firm}, and say how many amps it draws.',
      canBeWrong:
        'Wrong service-factor amps on the card look the same, and so does another load on the same wire. The pump is switched off first all the same.',
      cautions: ['hot-panel', 'electrician', 'stored-charge', 'lock-out', 'only-watches', 'stock-water'],
    },
  },
  reasons: {
    'current-over-motor-maximum': (
      { nowA, maxA, learnedA }: { nowA: number; maxA: number; learnedA: number },
      { amps },
    ) =>
      `The pump draws ${amps(nowA)}. The motor's maximum is ${amps(maxA)}; the normal current was ${amps(learnedA)}.`,
    'current-above-normal': (figures: AmpsShiftFigures, format) =>
      `${shiftText(figures, format)}.${supplyText(figures)}`,
  },
} satisfies AlarmText;
