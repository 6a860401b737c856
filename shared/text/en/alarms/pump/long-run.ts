/**
 * What is said of `long-run`. Its reasons: the switch should have opened, pressure does not come
 * up, or the run is only too long.
 */
import type { ReasonFormat } from '../../reasons/format.ts';
import type { AlarmText } from '../text-shapes.ts';

type UnderCutIn = { ranS: number; kpa: number; cutInKpa: number };

type TooLong = { ranS: number; kpa?: number; longestRunS?: number };

export const longRunText = {
  title: 'Pump runs on without stopping',
  means:
    'The pump has run longer than this well ever needs. Water may be running away somewhere, the pump may not reach its cut-out, or the switch may be stuck. A pump that runs for hours can overheat or empty the well.',
  firstStep:
    'Read the gauge from the door, or on the screen. Over cut-out, or if the relief valve blows: switch the pump off at {breaker} at once, but not beside the tank; if you cannot, call the power company. Leave it off and call {firm}. Else look for running water: taps, hoses, hydrants, trough, toilet. Close it. If you find none in ten minutes, or a wet patch, do the same. A pool is entered as expected.',
  canBeWrong:
    'A pool being filled, an irrigation set that runs all day, or a new garden looks the same. Under cut-in it can be a use that is simply too large for the pump. If the use is meant, enter it as expected.',
  needs: 'Current. With pressure it is told sooner; with the usual length of a run learned, more surely.',
  cautions: [
    'hot-panel',
    'buried-cable',
    'only-watches',
    'lock-out',
    'relief-valve',
    'scalding',
    'well-pit',
    'stock-water',
  ],
  forms: {
    'past-cut-out': {
      means:
        'The pump runs on past the point at which its pressure switch should have stopped it. Either its contacts are stuck closed, or the small pipe to it is plugged or frozen and it does not feel the pressure. The pressure can rise to that of the relief valve, and a pump that moves no water heats what stands in it.',
      firstStep:
        'Switch the pump off at {breaker} now, or at the main: from outside, and not in a pump house or pit that the tank is in. If you cannot, keep everybody away, and have the power company cut the service. Leave it off, and stand clear of the tank. Then open a cold tap elsewhere to let pressure off. Call {firm}: the switch is probably stuck, or the small pipe to it is plugged or frozen.',
      canBeWrong:
        'A gauge that has begun to read high, or a switch that was just set higher, looks the same. Where pressure is not measured, a closed valve or a low well does too. The pump is switched off first all the same.',
      cautions: [
        'hot-panel',
        'lock-out',
        'tank-pressure',
        'relief-valve',
        'scalding',
        'well-pit',
        'freezing',
        'only-watches',
        'stock-water',
      ],
    },
  },
  reasons: {
    'run-over-cut-out': (
      { ranS, kpa, cutOutKpa }: { ranS: number; kpa: number; cutOutKpa: number },
      { pressure, duration },
    ) =>
      `The pump has run for ${duration(ranS)} and holds ${pressure(kpa)}. Its switch should open at ${pressure(cutOutKpa)}.`,
    'run-under-cut-in': ({ ranS, kpa, cutInKpa }: UnderCutIn, { pressure, duration }) =>
      `The pump has run for ${duration(ranS)} at ${pressure(kpa)}, under its cut-in of ${pressure(cutInKpa)}. Pressure does not rise: water leaves as fast as the pump delivers it.`,
    'run-under-cut-in-low-current': ({ ranS, kpa, cutInKpa, amps }: UnderCutIn & { amps: number }, format) =>
      `The pump has run for ${format.duration(ranS)} at ${format.pressure(kpa)}, under its cut-in of ${format.pressure(cutInKpa)}. It draws ${format.amps(amps)}, too little for that pressure: it delivers little water.`,
    'run-without-rise': ({ ranS, kpa, cutInKpa, amps }: UnderCutIn & { amps: number }, format) =>
      `The pump has run for ${format.duration(ranS)} at its normal ${format.amps(amps)}, and the pressure has not risen from ${format.pressure(cutInKpa)}; it is ${format.pressure(kpa)}. Hardly any water was drawn before. What the pump lifts does not come up.`,
    /** `cutOutA` is the least that the pump draws in a normal fill, at the end of it. */
    'run-past-normal-end': (
      { ranS, amps: drawnA, cutOutA }: { ranS: number; amps: number; cutOutA: number },
      { amps, duration },
    ) =>
      `The pump has run for ${duration(ranS)} and draws ${amps(drawnA)}; its switch normally opens at ${amps(cutOutA)}. It moves little or no water. Pressure is not measured; a closed valve looks the same.`,
    /** Asked about first; it may be a pool or a new garden. */
    'run-unusually-long': (figures: TooLong, format) => `${tooLong(figures, format)} Is this run intended?`,
    'run-too-long': (figures: TooLong, format) => tooLong(figures, format),
  },
} satisfies AlarmText;

function tooLong({ ranS, kpa, longestRunS }: TooLong, { pressure, duration }: ReasonFormat): string {
  const at = kpa === undefined ? '' : ` at ${pressure(kpa)}`;
  const normal = longestRunS === undefined ? '' : ` Its longest normal run was ${duration(longestRunS)}.`;
  return `The pump has run for ${duration(ranS)} without stopping${at}.${normal}`;
}
