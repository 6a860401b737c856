/** What is said of `no-water`. Its reasons: no pressure with the pump running, or at rest. */
import { IF_IT_TRIPPED } from '../../cautions.ts';
import type { AlarmText } from '../text-shapes.ts';

export const noWaterText = {
  title: 'The taps run dry',
  means:
    'There is next to no pressure left in the pipes. Without pressure, dirty water can be drawn in through leaks and hoses: do not drink it for now.',
  firstStep: `Switch a running pump off at {breaker} and call {firm}. Else look at the breaker. ${IF_IT_TRIPPED} If it is on, or somebody turned it off, call.`,
  canBeWrong:
    'A system drained on purpose, a gauge whose little valve was shut, or a gauge wire that broke looks the same. If a tap runs as ever, it is the gauge. Enter a visit before draining.',
  needs: 'Pressure, from a gauge that has shown 20 psi (140 kPa) before.',
  cautions: [
    'hot-panel',
    'lost-pressure',
    'breaker-once',
    'after-reset',
    'empty-heater',
    'electrician',
    'lock-out',
    'scalding',
    'contamination',
    'flood',
    'stock-water',
  ],
  reasons: {
    'no-pressure-pump-running': ({ kpa }: { kpa: number }, { pressure }) =>
      `Pressure is ${pressure(kpa)} while the pump is running: no water reaches the taps.`,
    'no-pressure-pump-stopped': ({ kpa }: { kpa: number }, { pressure }) =>
      `Pressure is ${pressure(kpa)} and the pump is not running: no water reaches the taps.`,
  },
} satisfies AlarmText;
