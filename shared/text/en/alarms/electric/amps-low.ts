/** What is said of `amps-low`. */
import { shiftText, supplyText, type AmpsShiftFigures } from './amps-shift-text.ts';
import type { AlarmText } from '../text-shapes.ts';

export const ampsLowText = {
  title: 'Motor draws less than it used to',
  means:
    'The running current has left its normal downwards. The pump does less work: worn stages, a falling water level, air in the water, or a valve that is partly closed.',
  firstStep:
    'Ask whether somebody turned a valve, and open a tap. If a valve was closed by mistake, or the tap spits air or runs dry, switch the pump off at {breaker}. Leave it off, leave the valve alone and call {firm} today. If fills take longer, have {firm} measure flow, amps and the water level within a week. If neither is so, have it checked at the next visit.',
  canBeWrong:
    'Where voltage is not measured, the supply alone moves the amps by a few percent; a generator that runs for some days does more, and is waited for. A clamp that is not quite closed reads low while the pump is as good as ever. A valve that somebody throttled on purpose does it too.',
  needs:
    'Current, and a baseline of it. Voltage tells a changed supply from a changed pump; pressure makes runs comparable.',
  cautions: ['hot-panel', 'lock-out', 'electrician', 'scalding', 'well-pit', 'only-watches', 'stock-water'],
  reasons: {
    /** `fillRatio` is the time of a fill over its normal, if it is longer. */
    'current-below-normal': (figures: AmpsShiftFigures & { fillRatio?: number }, format) =>
      `${shiftText(figures, format)}.${fillText(figures.fillRatio, format.percent)}${supplyText(figures)}`,
  },
} satisfies AlarmText;

function fillText(fillRatio: number | undefined, percent: (fraction: number) => string): string {
  return fillRatio === undefined ? '' : ` Its fills take ${percent(fillRatio - 1)} longer.`;
}
