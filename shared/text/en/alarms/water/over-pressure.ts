/** What is said of `over-pressure`. Its reasons: pressure in a run or just after it, or at rest. */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

/** `isRunning` is false if the pump has stopped since. */
type RunFigures = { kpa: number; isRunning: boolean };

export const overPressureText = {
  title: 'Pressure too high',
  means:
    'The pressure is well over cut-out, close to the relief valve, or over the nameplate of the tank. While the pump runs, the switch is not stopping it. While it rests, water that a heater warms swells: a sound pressure tank takes that up, and one without air does not.',
  firstStep:
    'Keep away from the tank, and out of a pump house or pit that it is in. If the pump runs, switch it off from outside, at {breaker} or the main; if you cannot, keep everybody away, and have the power company cut the service. Then look at the water heater from a distance. If that rumbles or steams, open no tap and call a plumber, or 911. Else open a cold tap elsewhere to let pressure off. Call {firm}.',
  canBeWrong:
    'A gauge that drifts or a wrong scale reads too high. Do the first step all the same: the gauge at the tank is compared once the pump is off and the pressure is down. At rest, behind a very small tank, water that warms raises it in a harmless way at first. A relief setting that is wrong on the card tells it too early.',
  needs:
    'Pressure, and a cut-out that was learned or is on the card, the relief valve’s setting, or the pressure on the tank’s nameplate.',
  cautions: [
    'hot-panel',
    'runaway-heater',
    'relief-valve',
    'tank-pressure',
    'scalding',
    'lock-out',
    'well-pit',
    'only-watches',
    'stock-water',
  ],
  reasons: {
    'switch-did-not-open': (figures: RunFigures & { cutOutKpa: number }, format) =>
      `${inRun(figures, format)} The switch should open at ${format.pressure(figures.cutOutKpa)}.`,
    'run-over-drive-pressure': (figures: RunFigures & { driveKpa: number }, format) =>
      `${inRun(figures, format)} The drive should hold ${format.pressure(figures.driveKpa)}.`,
    'run-near-relief': (figures: RunFigures & { reliefKpa: number }, format) =>
      `${inRun(figures, format)} The relief valve opens at ${format.pressure(figures.reliefKpa)}.`,
    'over-tank-rating': (
      { kpa, maxKpa, isRunning }: { kpa: number; maxKpa: number; isRunning: boolean },
      { pressure },
    ) =>
      `Pressure is ${pressure(kpa)} ${isRunning ? 'and the pump is running' : 'with the pump stopped'}. The nameplate of the tank allows ${pressure(maxKpa)}.`,
    'switch-opened-high': (
      { endedKpa, cutOutKpa }: { endedKpa: number; cutOutKpa?: number },
      { pressure },
    ) => {
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
  },
} satisfies AlarmText;

function inRun({ kpa, isRunning }: RunFigures, { pressure }: ReasonFormat): string {
  return `Pressure is ${pressure(kpa)} ${isRunning ? 'and the pump is still running' : 'after the pump ran'}.`;
}
