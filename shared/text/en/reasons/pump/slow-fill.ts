/** Why `slow-fill` is active, in words: less delivery, or fills that take longer. */
import type { ReasonTexts } from '../reason-text.ts';

export const slowFillReasons = {
  /** `lossRatio` is the fraction of the normal delivery that is lost. */
  'delivery-down': ({ lossRatio }: { lossRatio: number }, { percent }) =>
    `The pump delivers ${percent(lossRatio)} less than normal at the same pressure.`,
  'fills-slow': ({ fillS, normalS }: { fillS: number; normalS: number }, { duration }) =>
    `Even the shortest fills now take ${duration(fillS)}; ${duration(normalS)} was normal.`,
  'store-fills-slow': (
    { runs, fillS, normalS }: { runs: number; fillS: number; normalS: number },
    { duration, number },
  ) =>
    `The shortest of the last ${number(runs)} fills of the storage tank took ${duration(fillS)}; ${duration(normalS)} was normal.`,
} satisfies ReasonTexts;
