/** What is said of `amps-low`. */
import { shiftText, supplyText, type AmpsShiftFigures } from './amps-shift-text.ts';
import type { AlarmText } from '../text-shapes.ts';

export const ampsLowText = {
  title: 'Motor draws less than it used to',
  means:
    'The running current has left its normal downwards. The pump does less work: worn stages, a falling water level, air in the water, or a valve that is partly closed.',
  firstStep:
    'Look whether a valve was touched. Watch for air spitting from the taps, and for slower filling.',
  canBeWrong:
    'Where voltage is not measured, the supply alone moves the amps by some per cent; a generator of some days does more, and is waited for. A clamp that is not quite closed reads low while the pump is as good as ever. A valve that somebody throttled on purpose does it too.',
  needs:
    'Current, and a baseline of it. Voltage tells a changed supply from a changed pump; pressure makes runs comparable.',
  cautions: ['electrician', 'well-pit', 'only-watches'],
  reasons: {
    /** `fillRatio` is the time of a fill over its normal, if it is longer. */
    'current-below-normal': (figures: AmpsShiftFigures & { fillRatio?: number }, format) =>
      `${shiftText(figures, format)}.${fillText(figures.fillRatio, format.percent)}${supplyText(figures)}`,
  },
} satisfies AlarmText;

function fillText(fillRatio: number | undefined, percent: (fraction: number) => string): string {
  return fillRatio === undefined ? '' : ` Its fills take ${percent(fillRatio - 1)} longer.`;
}
