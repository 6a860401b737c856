/** Why `over-pressure` is active, in words: in a run or just after it, or at rest. */
import type { ReasonFormat } from '../format.ts';
import type { ReasonTexts } from '../reason-text.ts';

/** `isRunning` is false if the pump has stopped since. */
type RunFigures = { kpa: number; isRunning: boolean };

export const overPressureReasons = {
  'switch-did-not-open': (figures: RunFigures & { cutOutKpa: number }, format) =>
    `${inRun(figures, format)} The switch should open at ${format.pressure(figures.cutOutKpa)}.`,
  'run-over-drive-pressure': (figures: RunFigures & { driveKpa: number }, format) =>
    `${inRun(figures, format)} The drive should hold ${format.pressure(figures.driveKpa)}.`,
  'run-near-relief': (figures: RunFigures & { reliefKpa: number }, format) =>
    `${inRun(figures, format)} The relief valve opens at ${format.pressure(figures.reliefKpa)}.`,
  'switch-opened-high': ({ endedKpa, cutOutKpa }: { endedKpa: number; cutOutKpa?: number }, { pressure }) => {
    const normal = cutOutKpa === undefined ? '' : ` Cut-out is ${pressure(cutOutKpa)}.`;
    return `Pressure was ${pressure(endedKpa)} before the switch stopped the pump.${normal}`;
  },
  /**
   * `heaterRiseKpa` is the most that heated water can raise it; absent if that may explain the
   * pressure, or is not known.
   */
  'pressure-high-at-rest': (
    figures: { kpa: number; cutOutKpa?: number; heaterRiseKpa?: number },
    { pressure },
  ) => {
    const { kpa, cutOutKpa, heaterRiseKpa } = figures;
    const over = cutOutKpa === undefined ? '' : `, ${pressure(kpa - cutOutKpa)} over cut-out`;
    const heater =
      heaterRiseKpa === undefined
        ? ''
        : ` With the tank on the card, a water heater can raise it by ${pressure(heaterRiseKpa)} at most.`;
    return `Pressure is ${pressure(kpa)} with the pump stopped${over}.${heater}`;
  },
} satisfies ReasonTexts;

function inRun({ kpa, isRunning }: RunFigures, { pressure }: ReasonFormat): string {
  return `Pressure is ${pressure(kpa)} ${isRunning ? 'and the pump is still running' : 'after the pump ran'}.`;
}
