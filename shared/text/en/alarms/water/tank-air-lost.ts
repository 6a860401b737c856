/** What is said of `tank-air-lost`. Its reasons: the precharge, or fills that are too short. */
import type { AlarmText } from '../text-shapes.ts';

export const tankAirLostText = {
  title: 'Pressure tank has lost air',
  means:
    'The tank holds less water between cut-out and cut-in than its air charge on the card would give. The pump starts more often for the same use.',
  firstStep:
    'Have {firm} check the precharge this week, with the pump switched off and the tank drained. Pumping air in does not last: ask why it was lost. If the pump starts every few seconds, switch it off at {breaker} between uses.',
  canBeWrong:
    'A wrong volume, precharge or altitude on the card gives the same picture from the first day. A tank that was changed for a smaller one does too. From pressure alone, a burst bladder and lost air can’t be told apart.',
  needs: 'Current and pressure, with fills learned or the tank’s volume and air charge on the card.',
  cautions: ['hot-panel', 'precharge', 'tank-pressure', 'lock-out', 'well-pit'],
  reasons: {
    'precharge-low': (
      { prechargeKpa, normalPrechargeKpa }: { prechargeKpa: number; normalPrechargeKpa: number },
      { pressure },
    ) =>
      `The tank's precharge is ${pressure(prechargeKpa)}, calculated from its fills. It should be ${pressure(normalPrechargeKpa)}.`,
    /** `lossRatio` is the fraction of the drawdown that is lost. */
    'fills-shorter': (
      { fillS, normalS, lossRatio }: { fillS: number; normalS: number; lossRatio: number },
      { duration, percent },
    ) =>
      `A fill now takes ${duration(fillS)}; ${duration(normalS)} was normal between the same pressures. The tank gives about ${percent(lossRatio)} less water in each cycle.`,
    'fills-too-short-for-tank': ({ fillS, minFillS }: { fillS: number; minFillS: number }, { duration }) =>
      `A fill takes ${duration(fillS)}. This pump needs at least ${duration(minFillS)} to fill the tank on the card: the tank holds little air, or is smaller than the card says.`,
  },
} satisfies AlarmText;
