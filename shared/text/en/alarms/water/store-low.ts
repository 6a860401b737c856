/** What is said of `store-low`. */
import type { AlarmText } from '../text-shapes.ts';

export const storeLowText = {
  title: 'Storage tank or trough is low',
  means:
    'The store is lower than it ever is. What is drawn is more than what is pumped, or nothing is pumped.',
  firstStep:
    'See from outside whether the pump runs and the float moves. Never climb in, and never lean in alone: look through the hatch from a guarded stand. Haul water if stock depend on it. Call {firm} today.',
  canBeWrong:
    'A hot week, more stock, or a store that is being cleaned draws it down in a healthy way. A float sensor that hangs or is fouled reads low. Compare with the water as you see it from outside.',
  needs: 'The depth in the store, and at least four days of it.',
  cautions: ['closed-space', 'stock-water', 'breaker-once'],
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
