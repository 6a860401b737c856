/** What is said of `amps-high`. */
import { shiftText, supplyText, type AmpsShiftFigures } from './amps-shift-text.ts';
import type { AlarmText } from '../text-shapes.ts';

export const ampsHighText = {
  title: 'Motor draws more than it used to',
  means:
    'The running current has left its normal upwards. The motor works harder: sand or scale in the pump, worn bearings, failing windings, or a supply that has changed.',
  firstStep:
    'Compare with the motor’s service-factor amps. If it is over them, switch the pump off and call. Else have it measured at the next visit, and soon.',
  canBeWrong:
    'Where voltage is not measured, the supply alone moves the amps by some per cent, from season to season too. Another load on the same wire does it, and so does a run at a lower pressure than usual.',
  needs:
    'Current, and a baseline of it. Voltage tells a changed supply from a changed motor; pressure makes runs comparable.',
  cautions: ['electrician', 'only-watches'],
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
