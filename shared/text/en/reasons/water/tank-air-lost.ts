/** Why `tank-air-lost` is active, in words: by the precharge, or by fills that are too short. */
import type { ReasonTexts } from '../reason-text.ts';

export const tankAirLostReasons = {
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
} satisfies ReasonTexts;
