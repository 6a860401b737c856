/** What is said of `store-low`. */
import type { AlarmText } from '../text-shapes.ts';

export const storeLowText = {
  title: 'Storage tank or trough is low',
  means:
    'The tank or trough is lower than it ever is. What is drawn is more than what is pumped, or nothing is pumped.',
  firstStep:
    'Read the level from the ground. Never climb in, and never put your head through the hatch. Look whether the float moves and water flows in. If the pump runs and nothing flows in, switch it off at {breaker} and leave it off. If it draws no current, look at {breaker} from outside, and read the caution before you touch it. Call {firm} today. Haul water if stock depend on it.',
  canBeWrong:
    'A hot week, more stock, or a tank that is being cleaned draws it down in a healthy way. A float sensor that hangs or is fouled reads low. Compare with the water as you see it from the ground.',
  needs: 'The depth in the tank or trough, and at least four days of it.',
  cautions: [
    'closed-space',
    'stock-water',
    'hot-panel',
    'breaker-once',
    'after-reset',
    'electrician',
    'lock-out',
    'scalding',
  ],
  reasons: {
    'store-under-lowest-day': (
      {
        storeM,
        days,
        lowestM,
        emptyInS,
      }: { storeM: number; days: number; lowestM: number; emptyInS?: number },
      { length, count, duration },
    ) => {
      const left =
        emptyInS === undefined
          ? ''
          : ` At the rate of the last half hour it is empty in ${duration(emptyInS)}.`;
      return `The level in the storage tank is ${length(storeM)}. In the last ${count(days, 'day', 'days')} it was never under ${length(lowestM)}.${left}`;
    },
  },
} satisfies AlarmText;
