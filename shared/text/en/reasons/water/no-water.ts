/** Why `no-water` is active, in words: with the pump running, or not. */
import type { ReasonTexts } from '../reason-text.ts';

export const noWaterReasons = {
  'no-pressure-pump-running': ({ kpa }: { kpa: number }, { pressure }) =>
    `Pressure is ${pressure(kpa)} while the pump is running: no water reaches the taps.`,
  'no-pressure-pump-stopped': ({ kpa }: { kpa: number }, { pressure }) =>
    `Pressure is ${pressure(kpa)} and the pump is not running: no water reaches the taps.`,
} satisfies ReasonTexts;
