/**
 * Why `tank-overcharged` is active, in words: by the precharge, or by the pressures at which runs
 * start.
 */
import type { ReasonTexts } from '../reason-text.ts';

export const tankOverchargedReasons = {
  'tank-empty-before-start': (
    { prechargeKpa, cutInKpa }: { prechargeKpa: number; cutInKpa: number },
    { pressure },
  ) =>
    `The tank's precharge is ${pressure(prechargeKpa)}, calculated from its fills. Cut-in is ${pressure(cutInKpa)}: the tank is empty before the pump starts.`,
  'runs-start-over-cut-in': ({ startKpa, cutInKpa }: { startKpa: number; cutInKpa: number }, { pressure }) =>
    `Runs start at ${pressure(startKpa)} or more; the switch closes at ${pressure(cutInKpa)}. Fills take longer for the same rise, and motor current is normal. The tank holds too much air and is empty before the pump starts.`,
} satisfies ReasonTexts;
