/**
 * What is said of `tank-overcharged`. Its reasons: the precharge, or the pressures at which
 * runs start.
 */
import type { AlarmText } from '../text-shapes.ts';

export const tankOverchargedText = {
  title: 'Pressure tank has too much air',
  means:
    'The air charge is over cut-in. The tank is empty before the pump starts: the pressure drops off suddenly, and taps spit or stop for a moment.',
  firstStep:
    'Have {firm} check the precharge this week, with the pump switched off and the tank drained. It belongs about 2 psi (14 kPa) under cut-in. A galvanized tank without a bladder has no precharge: if taps spurt air, have its air-volume control checked.',
  canBeWrong:
    'A switch whose cut-in was set lower does the same, and so does a gauge that reads low or a wrong tank on the card. A short dip just at cut-in can also be a large tap opened at that moment.',
  needs: 'Current and pressure, with the tank’s volume and air charge on the card.',
  cautions: ['precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  reasons: {
    'tank-empty-before-start': (
      { prechargeKpa, cutInKpa }: { prechargeKpa: number; cutInKpa: number },
      { pressure },
    ) =>
      `The tank's precharge is ${pressure(prechargeKpa)}, calculated from its fills. Cut-in is ${pressure(cutInKpa)}: the tank is empty before the pump starts.`,
    'runs-start-over-cut-in': (
      { startKpa, cutInKpa }: { startKpa: number; cutInKpa: number },
      { pressure },
    ) =>
      `Runs start at ${pressure(startKpa)} or more; the switch closes at ${pressure(cutInKpa)}. Fills take longer for the same rise, and motor current is normal. The tank holds too much air and is empty before the pump starts.`,
    'pressure-falls-suddenly': (
      { startKpa, cutInKpa }: { startKpa: number; cutInKpa: number },
      { pressure },
    ) =>
      `Runs start anywhere up to ${pressure(startKpa)}; the switch closes at ${pressure(cutInKpa)}. Pressure falls through cut-in at once, and motor current is normal. The tank holds too much air and is empty before the pump starts.`,
  },
} satisfies AlarmText;
