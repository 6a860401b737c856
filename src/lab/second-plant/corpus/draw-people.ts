/** Who lives on a drawn well, and what the card says of it. */
import {
  heatPump,
  hose,
  household,
  onDays,
  smallDraws,
  softener,
  stock,
  timed,
  type Habit,
} from '../habits.ts';
import type { PumpPlan } from '../plan.ts';
import type { Dice } from './draw.ts';

export type UseKind =
  'house' | 'shift-worker' | 'retired' | 'weekend-house' | 'farm' | 'stock' | 'garden' | 'heat-pump';

export interface People {
  habits: readonly Habit[];
  use: readonly ('house' | 'stock' | 'irrigation' | 'heat-pump')[];
  stockHeads?: number;
  waterHeater: boolean;
}

export function drawPeople(kind: UseKind, pump: PumpPlan, draw: Dice): People {
  const people = Math.round(draw.between(2, 6));
  const family = household({ people, rhythm: 'family' });
  const heads = Math.round(draw.between(12, 50) * Math.min(1.5, pump.bestLPerS));
  const house = { use: ['house'], waterHeater: true } as const;
  switch (kind) {
    case 'house':
      return {
        ...house,
        habits: [
          family,
          ...(draw.chance(0.4) ? [softener(Math.round(draw.between(3, 8)))] : []),
          ...(draw.chance(0.5) ? [hose(draw.between(0.05, 0.35), 0.1)] : []),
          ...(draw.chance(0.3) ? [smallDraws(draw.between(6, 30))] : []),
        ],
      };
    case 'shift-worker':
      return { ...house, habits: [household({ people: 2, rhythm: 'nights' }), smallDraws(10)] };
    case 'retired':
      return {
        ...house,
        habits: [household({ people: 2, rhythm: 'retired', athome: true }), hose(0.4, 0.03)],
      };
    case 'weekend-house':
      return { ...house, habits: [onDays(family, (_, weekday) => weekday === 6 || weekday === 0)] };
    case 'farm':
      return {
        use: ['house', 'stock'],
        stockHeads: heads,
        waterHeater: true,
        habits: [family, stock(heads)],
      };
    case 'stock':
      return { use: ['stock'], stockHeads: heads, waterHeater: false, habits: [stock(heads)] };
    case 'garden':
      return {
        use: ['house', 'irrigation'],
        waterHeater: true,
        habits: [
          family,
          timed({
            lPerS: pump.bestLPerS * draw.between(0.45, 0.95),
            hour: draw.between(3, 5),
            forMin: draw.between(40, 150),
            everyDays: draw.oneOf([1, 2, 3]),
            aboveC: 12,
          }),
        ],
      };
    case 'heat-pump':
      return {
        use: ['house', 'heat-pump'],
        waterHeater: true,
        habits: [family, heatPump(pump.bestLPerS * draw.between(0.35, 0.6))],
      };
    default:
      return kind satisfies never;
  }
}
