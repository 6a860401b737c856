/** What is said of `no-water`. Its reasons: no pressure with the pump running, or at rest. */
import { IF_IT_TRIPPED } from '../../cautions.ts';
import type { AlarmText } from '../text-shapes.ts';

export const noWaterText = {
  title: 'The taps run dry',
  means:
    'There is next to no pressure left in the pipes. Without pressure dirty water can be drawn in through leaks and hoses.',
  firstStep: `Close taps and hoses. If the pump runs without water, switch it off at {breaker}. If it rests, look at the breaker. ${IF_IT_TRIPPED} When water is back, let it run clear. Cloudy, or a pipe broke: test before drinking.`,
  canBeWrong:
    'A system drained on purpose, a gauge whose little valve was shut, or a gauge wire that broke looks the same. If a tap runs as ever, it is the gauge. Enter a visit before draining.',
  needs: 'Pressure, from a gauge that has shown 20 psi (140 kPa) before.',
  cautions: ['breaker-once', 'electrician', 'contamination', 'flood', 'stock-water'],
  reasons: {
    'no-pressure-pump-running': ({ kpa }: { kpa: number }, { pressure }) =>
      `Pressure is ${pressure(kpa)} while the pump is running: no water reaches the taps.`,
    'no-pressure-pump-stopped': ({ kpa }: { kpa: number }, { pressure }) =>
      `Pressure is ${pressure(kpa)} and the pump is not running: no water reaches the taps.`,
  },
} satisfies AlarmText;
