/**
 * Why `long-run` is active, in words: the switch should have opened, pressure does not come up, or
 * the run is only too long.
 */
import type { ReasonTexts } from '../reason-text.ts';

type UnderCutIn = { ranS: number; kpa: number; cutInKpa: number };

export const longRunReasons = {
  'run-over-cut-out': (
    { ranS, kpa, cutOutKpa }: { ranS: number; kpa: number; cutOutKpa: number },
    { pressure, duration },
  ) =>
    `The pump has run for ${duration(ranS)} and holds ${pressure(kpa)}. Its switch should open at ${pressure(cutOutKpa)}.`,
  'run-under-cut-in': ({ ranS, kpa, cutInKpa }: UnderCutIn, { pressure, duration }) =>
    `The pump has run for ${duration(ranS)} at ${pressure(kpa)}, under its cut-in of ${pressure(cutInKpa)}. Pressure does not rise: water leaves as fast as the pump delivers it.`,
  'run-under-cut-in-low-current': ({ ranS, kpa, cutInKpa, amps }: UnderCutIn & { amps: number }, format) =>
    `The pump has run for ${format.duration(ranS)} at ${format.pressure(kpa)}, under its cut-in of ${format.pressure(cutInKpa)}. It draws ${format.amps(amps)}, too little for that pressure: it delivers little water.`,
  /** `cutOutA` is the least that the pump draws in a normal fill, at the end of it. */
  'run-past-normal-end': (
    { ranS, amps: drawnA, cutOutA }: { ranS: number; amps: number; cutOutA: number },
    { amps, duration },
  ) =>
    `The pump has run for ${duration(ranS)} and draws ${amps(drawnA)}; its switch normally opens at ${amps(cutOutA)}. It moves little or no water. Pressure is not measured; a closed valve looks the same.`,
  'run-too-long': (
    { ranS, kpa, longestRunS }: { ranS: number; kpa?: number; longestRunS?: number },
    { pressure, duration },
  ) => {
    const at = kpa === undefined ? '' : ` at ${pressure(kpa)}`;
    const normal = longestRunS === undefined ? '' : ` Its longest normal run was ${duration(longestRunS)}.`;
    return `The pump has run for ${duration(ranS)} without stopping${at}.${normal}`;
  },
} satisfies ReasonTexts;
