/**
 * The node and its instruments at a drawn well: rates, steps and noise as they are met in the
 * field.
 */
import type { NodePlan } from '../../score/case.ts';
import type { InstrumentPlan } from '../plan.ts';
import type { Dice } from './draw.ts';

type Rate = Pick<NodePlan, 'everyS' | 'packS'> & Partial<Pick<NodePlan, 'changeA' | 'changeKpa'>>;

const RATES: readonly Rate[] = [
  { everyS: 2, packS: 20 },
  { everyS: 5, packS: 30 },
  { everyS: 5, packS: 60 },
  { everyS: 5, packS: 30 },
  { everyS: 10, packS: 60 },
  { everyS: 0, packS: 30, changeA: 0.2, changeKpa: 2.5 },
];

export function drawNode(
  wish: Partial<NodePlan>,
  control: string,
  draw: Dice,
): { node: NodePlan; instruments: InstrumentPlan } {
  const isStore = control === 'float' || control === 'timer';
  const node: NodePlan = {
    ...draw.oneOf(RATES),
    clock: draw.chance(0.2) ? 'none' : 'utc',
    fedFrom: draw.oneOf(['other-circuit', 'other-circuit', 'battery']),
    extraChannels: [
      ...(draw.chance(0.35) ? ['voltage'] : []),
      ...(draw.chance(0.3) ? ['temperature'] : []),
      ...(isStore ? ['store'] : []),
    ],
    ...wish,
  };
  const rounding = draw.chance(0.2);
  const coarse = draw.chance(0.25);
  return {
    node,
    instruments: {
      clamp: {
        noiseA: draw.between(0.005, 0.04),
        stepA: rounding ? 0.1 : 0.01,
        maxA: 60,
        gain: draw.between(0.97, 1.03),
        idleA: draw.chance(0.3) ? draw.between(0.01, 0.08) : 0,
      },
      transducer: {
        noiseKpa: draw.between(0.3, 1.8),
        stepKpa: coarse ? 0.7 : 0.1,
        offsetKpa: draw.between(-4, 4),
        driftKpaAYear: draw.between(-4, 4),
      },
      meanS: node.meanS ?? Math.min(1, node.everyS || 1),
      metersVolts: node.extraChannels.includes('voltage'),
    },
  };
}
