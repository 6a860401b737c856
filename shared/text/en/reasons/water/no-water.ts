/** Why `no-water` is active, in words: with the pump running, or off. */
import type { ReasonTexts } from '../reason-text.ts';

export const noWaterReasons = {
  'no-pressure-pump-running': ({ kpa }: { kpa: number }, { pressure }) =>
    `Pressure is ${pressure(kpa)} while the pump runs: no water reaches the taps.`,
  'no-pressure-pump-off': ({ kpa }: { kpa: number }, { pressure }) =>
    `Pressure is ${pressure(kpa)} and the pump is off: no water reaches the taps.`,
} satisfies ReasonTexts;
