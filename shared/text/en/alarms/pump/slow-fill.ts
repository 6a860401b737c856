/** What is said of `slow-fill`. Its reasons: less delivery, or fills that take longer. */
import type { AlarmText } from '../text-shapes.ts';

export const slowFillText = {
  title: 'Pump delivers less than it used to',
  means:
    'At the same pressure less water comes than when this well was learned. Pump, pipe, filter or well gives less.',
  firstStep:
    'If there is a filter before the tank, read its date and its gauges. Before it is changed, switch the pump off at {breaker} and let the pressure down to zero. If it is clean, have {firm} measure flow, amps and the water level within a month.',
  canBeWrong:
    'A use in nearly every run makes even the quickest fill look slow; at the usual amps, with nothing falling back at rest, only a large loss is told. So does a tank that was given a different air charge, or a low supply voltage. A filter before the tank that is due does it harmlessly.',
  needs:
    'Current and pressure, and a baseline. With the tank on the card, the delivery is judged; without it, the time that the quickest fills take.',
  cautions: [
    'filter-change',
    'hot-panel',
    'tank-pressure',
    'lock-out',
    'well-pit',
    'contamination',
    'local-rules',
  ],
  reasons: {
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
  },
} satisfies AlarmText;
